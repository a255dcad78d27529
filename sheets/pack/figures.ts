/** Figures of the pack and of its strings, and what temperature makes of them, as rows. */
import type { Figures, SourceFigures } from '../../core/topics/pack/pack-figures.ts';
import type { Numbers, Shown } from '../shown.ts';

export interface FigureRow { readonly what: string; /** one for each head: the pack, then its strings */ readonly values: readonly Shown[] }
export interface TemperatureRow { readonly when: string; readonly temperature: Shown; readonly charge: Shown; readonly voltage: Shown; readonly resistance: Shown; readonly shortCircuit: Shown; readonly power: Shown }

type Line = readonly [what: string, key: string, of: (figures: Figures) => number | undefined, quantity: 'voltage' | 'charge' | 'energy' | 'resistance' | 'current' | 'power' | 'number', rounding?: 'up' | 'down'];

const lines: readonly Line[] = [
  ['cells in series', 'series', ({ series }) => series, 'number'],
  ['voltage, every cell at its lowest', 'minimum', ({ minimumVoltage }) => minimumVoltage, 'voltage', 'down'],
  ['voltage, nominal', 'nominal', ({ nominalVoltage }) => nominalVoltage, 'voltage'],
  ['voltage, every cell at its highest', 'maximum', ({ maximumVoltage }) => maximumVoltage, 'voltage', 'up'],
  ['voltage now, nothing drawn', 'open', ({ now }) => now.openVoltage, 'voltage'],
  ['capacity', 'capacity', ({ capacity }) => capacity, 'charge', 'down'],
  ['usable capacity, between the limits', 'usable-charge', ({ usableCharge }) => usableCharge, 'charge', 'down'],
  ['energy', 'energy', ({ energy }) => energy, 'energy', 'down'],
  ['usable energy, between the limits', 'usable', ({ usableEnergy }) => usableEnergy, 'energy', 'down'],
  ['internal resistance now', 'resistance', ({ now }) => now.resistance, 'resistance', 'up'],
  ['short circuit at its ends now', 'short', ({ now }) => now.shortCircuit, 'current', 'up'],
  ['cells give for ever', 'continuous', ({ continuousDischarge }) => continuousDischarge, 'current', 'down'],
  ['cells give for 10 s', 'peak', ({ peakDischarge }) => peakDischarge, 'current', 'down'],
  ['cells take for ever', 'charge', ({ continuousCharge }) => continuousCharge, 'current', 'down'],
  ['highest power for 10 s now', 'power', ({ peakPower }) => peakPower, 'power', 'down'],
];

/** @param strings  shown beside the pack; none when the pack is one string */
export function figuresOf(pack: number, figures: Figures | undefined, strings: readonly { readonly name: string; readonly figures: Figures | undefined }[], numbers: Numbers): { readonly heads: readonly string[]; readonly rows: readonly FigureRow[] } {
  const columns = [{ name: 'Pack', key: `pack.${pack}`, figures }, ...strings.slice(0, 3).map((string) => ({ name: `String ${string.name}`, key: `pack.string.${string.name}`, figures: string.figures }))];
  return {
    heads: columns.map(({ name }) => name),
    rows: lines.map(([what, key, of, quantity, rounding]) => ({ what, values: columns.map((column) => numbers.result(`${column.key}.${key}`, column.figures && of(column.figures), quantity, rounding ? { rounding } : {})) })),
  };
}

export function temperaturesOf(pack: number, figures: Figures | undefined, numbers: Numbers): readonly TemperatureRow[] {
  if (!figures) return [];
  const row = (when: string, key: string, at: SourceFigures): TemperatureRow => {
    const value = (what: string, si: number, quantity: 'temperature' | 'ratio' | 'voltage' | 'resistance' | 'current' | 'power', rounding?: 'up' | 'down'): Shown => numbers.result(`pack.${pack}.${key}.${what}`, si, quantity, rounding ? { rounding } : {});
    return {
      when, temperature: value('temperature', at.cellTemperature, 'temperature'), charge: value('charge', at.stateOfCharge, 'ratio'), voltage: value('voltage', at.openVoltage, 'voltage'),
      resistance: value('resistance', at.resistance, 'resistance', 'up'), shortCircuit: value('short', at.shortCircuit, 'current', 'up'), power: value('power', at.voltageLimitedPower, 'power', 'down'),
    };
  };
  return [
    row('as the file says', 'now', figures.now),
    ...figures.byTemperature.map((at, index) => row('', `temperature-${index}`, at)),
    row('most that a short drives', 'highest', figures.highestFault),
    row('least that a fuse must see', 'lowest', figures.lowestFault),
  ];
}
