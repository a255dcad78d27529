/**
 * Low voltage: what feeds it, what takes from it, the wires and fuses between, and what is left after standing.
 */
import type { Topic } from '../topic.ts';
import { studyCoils } from './coils.ts';
import type { CoilResult } from './coils.ts';
import { studyConsumers } from './consumers.ts';
import type { ConsumerResult } from './consumers.ts';
import { checkCharging } from './charging.ts';
import { studyContacts } from './contacts.ts';
import type { ContactResult } from './contacts.ts';
import { studyFuses } from './fuses.ts';
import type { FuseResult } from './fuses.ts';
import { lowVoltageMetal } from './metal.ts';
import { modePoints, sourceEnds } from './mode-points.ts';
import { shortsOf } from './short-of-source.ts';
import { checkSources } from './sources-joined.ts';
import { studyStanding } from './standing.ts';
import type { Standing } from './standing.ts';
import { studySupply } from './supply.ts';
import type { SupplyResults } from './supply.ts';
import { studyWires } from './wires.ts';
import type { WireResult } from './wires.ts';

export interface LowVoltageResults {
  /** highest terminal voltage of a battery or DC-DC in each mode [V], `rest` first */
  readonly bus: readonly { readonly mode: string; readonly voltage: number }[];
  /** modes that could not be computed, with the reason */
  readonly failed: readonly { readonly mode: string; readonly why: string }[];
  readonly consumers: readonly ConsumerResult[];
  readonly fuses: readonly FuseResult[];
  readonly wires: readonly WireResult[];
  readonly supply: SupplyResults;
  readonly standing: readonly Standing[];
  readonly coils: readonly CoilResult[];
  readonly contacts: readonly ContactResult[];
}

export const lowVoltage: Topic<LowVoltageResults> = {
  name: 'low-voltage',
  readsBulk: false,
  study: (car, ask) => {
    const ends = sourceEnds(car);
    const modes = modePoints(car, ask, ends);
    const metal = lowVoltageMetal(car, ends);
    const unfinished = [...car.parts.values()].flatMap(({ kind, missing }) => (kind.feedsLowVoltage ? missing : []));
    const shorts = shortsOf(ask, ends);
    const consumers = studyConsumers(car, modes, metal, unfinished);
    const fuses = studyFuses(car, modes, metal, shorts);
    const wires = studyWires({ car, modes, metal, shorts });
    const supply = studySupply(modes, ends, consumers.results.length > 0, unfinished);
    const standing = studyStanding(car, modes);
    const coils = studyCoils(car, modes, metal, shorts);
    const contacts = studyContacts(car, modes, metal);
    return {
      results: {
        bus: modes.points.map(({ mode, bus }) => ({ mode, voltage: bus })), failed: modes.failed,
        consumers: consumers.results, fuses: fuses.results, wires: wires.results, supply: supply.results, standing: standing.results, coils: coils.results, contacts: contacts.results,
      },
      checks: [
        ...checkSources(metal), ...supply.checks, ...consumers.checks, ...coils.checks, ...fuses.checks, ...wires.checks, ...contacts.checks, ...standing.checks, ...checkCharging(car, modes),
      ],
    };
  },
};
