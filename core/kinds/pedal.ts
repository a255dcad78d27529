/**
 * A pedal that tells electronics how far it is pressed: one or two tracks, each a divider between its own supply and ground. Two tracks
 * rise differently, so that a short between their signals shows as two shares that do not belong together.
 */
import { count, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';
import type { PedalTrack } from '../part/role.ts';

const lowIs = 'signal at rest, as a share of the track’s supply';
const highIs = 'signal fully pressed, as a share of the track’s supply';

export const pedal = defineKind({
  kind: 'pedal',
  title: 'Pedal sensor',
  family: 'low_voltage',
  meaning: 'an accelerator or brake pedal that gives a voltage for how far it is pressed; track 1 and, on most, track 2',
  fields: {
    tracks: count('how many independent tracks it has; silent means two', { need: 'optional', minimum: 1, maximum: 2, example: '2' }),
    low_1: required('ratio', `track 1: ${lowIs}`, { example: '16 % measured', minimum: 0, maximum: 1 }),
    high_1: required('ratio', `track 1: ${highIs}`, { example: '84 % measured', minimum: 0, maximum: 1 }),
    low_2: optional('ratio', `track 2: ${lowIs}; silent means half of track 1`, { example: '8 % measured', minimum: 0, maximum: 1 }),
    high_2: optional('ratio', `track 2: ${highIs}; silent means half of track 1`, { example: '42 % measured', minimum: 0, maximum: 1 }),
    track_resistance: fromHandbook('resistance', 'pedal.track_resistance', 'of one track between its supply and its ground', { example: '2 kΩ measured', minimum: 1, maximum: 1e6 }),
  },
  settings: { travel: optional('ratio', 'how far it is pressed; unset means not at all', { example: '40 %', minimum: 0, maximum: 1 }) },
  worked: ['travel'],
  ports: ({ tracks }) => tracksOf(tracks).flatMap((n): Port[] => [
    { name: `supply_${n}`, carries: 'low_voltage', meaning: `supply of track ${n}, usually 5 V from the controller`, holds: 1, pole: 'positive' },
    { name: `ground_${n}`, carries: 'low_voltage', meaning: `ground of track ${n}, back to the controller`, holds: 1, pole: 'negative' },
    { name: `signal_${n}`, carries: 'signal', meaning: `signal of track ${n}`, holds: 1 },
  ]),
  wire: ({ fields, settings }, wiring) => {
    for (const track of elementsOf(fields)) {
      const at = Math.min(1 - LEAST, Math.max(LEAST, track.low + (settings.travel ?? 0) * (track.high - track.low)));
      wiring.resistor(`upper_${track.number}`, wiring.port(track.supply), wiring.port(track.signal), fields.track_resistance * (1 - at));
      wiring.resistor(`lower_${track.number}`, wiring.port(track.signal), wiring.port(track.ground), fields.track_resistance * at);
    }
  },
  roles: ({ fields }) => ({ pedal: { tracks: elementsOf(fields).map(({ number: _, ...track }) => track), travelSetting: 'travel' } }),
  failures: [],
  failuresByFields: ({ fields }) => elementsOf(fields).flatMap(({ number, signal }) => [
    { code: `track_${number}_stuck_low`, meaning: `track ${number} shows its ground, however far the pedal is pressed`, likelihood: 2, changes: () => [{ element: `lower_${number}`, becomes: 'shorted' as const, resistance: 1 }] },
    { code: `track_${number}_stuck_high`, meaning: `track ${number} shows its supply: its ground is broken inside`, likelihood: 2, changes: () => [{ element: `lower_${number}`, becomes: 'open' as const }] },
    { code: `track_${number}_worn`, meaning: `a bad spot on track ${number}: the signal jumps`, likelihood: 3, changes: () => [{ element: `upper_${number}`, becomes: 'resistive' as const, resistance: 20e3 }] },
    ...(number === 2 ? [{ code: 'tracks_touch', meaning: 'the two signals touch each other', likelihood: 1, changes: () => [{ add: 'fault_touch', a: 'signal_1', b: signal, resistance: 1 }] }] : []),
  ]),
  observables: [
    { name: 'signal of track 1', sense: 'read', meaning: 'rises evenly from rest to fully pressed, without a jump' },
    { name: 'signal of track 2', sense: 'read', meaning: 'keeps its own proportion to track 1 all the way' },
    { name: 'return', sense: 'see', meaning: 'it comes back by itself, from anywhere' },
  ],
});

/** Neither half of a divider is a dead short [1]. */
const LEAST = 1e-3;
const tracksOf = (tracks: number | undefined): number[] => Array.from({ length: tracks ?? 2 }, (_, index) => index + 1);

interface Given { readonly tracks: number | undefined; readonly low_1: number; readonly high_1: number; readonly low_2: number | undefined; readonly high_2: number | undefined }

function elementsOf(fields: Given): readonly (PedalTrack & { readonly number: number })[] {
  return tracksOf(fields.tracks).map((number) => ({
    number, supply: `supply_${number}`, ground: `ground_${number}`, signal: `signal_${number}`,
    low: number === 1 ? fields.low_1 : fields.low_2 ?? fields.low_1 / 2, high: number === 1 ? fields.high_1 : fields.high_2 ?? fields.high_1 / 2,
  }));
}
