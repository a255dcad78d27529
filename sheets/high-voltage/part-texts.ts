/** What stands at a high-voltage part: what it is made for, what flows now, what would flow in a short, what stands across it. */
import type { Analysis } from '../../core/analyse.ts';
import type { Car, CarPart } from '../../core/car/car.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { CarTexts } from '../diagram/car-texts.ts';
import type { MarkLine, SymbolShown } from '../diagram/mark.ts';
import { symbolOf } from '../symbols/kind-symbols.ts';
import type { ColumnPlace } from './columns.ts';

export interface PartTexts {
  readonly symbol: (part: CarPart) => SymbolShown;
  readonly lines: (part: CarPart) => readonly MarkLine[];
  readonly placeLines: (place: ColumnPlace) => readonly MarkLine[];
}

export function partTexts({ car, results }: Analysis, texts: CarTexts): PartTexts {
  const found = results['high-voltage'] as HighVoltageResults | undefined;
  const fault = faultsByPart(found, car, texts);
  const { numbers } = texts;
  const negative = found?.packs[0]?.negative;

  const contact = (part: CarPart) => part.roles.switching?.find(({ a, b }) => isHigh(part, a) && isHigh(part, b));
  const symbol = (part: CarPart): SymbolShown => {
    const role = contact(part);
    const position = role && texts.position(`${part.name}.${role.element}`);
    return { name: symbolOf(part.kind.kind).symbol, ...(position === undefined ? {} : { isClosed: position === 'closed' }) };
  };
  const faultLine = (part: CarPart): MarkLine[] => {
    const value = fault(part.name);
    return value === undefined ? [] : [{ before: 'fault ', shown: numbers.result(`fault ${part.name}`, value, 'current', { digits: 3, rounding: 'up' }) }];
  };
  /** across its two poles, through the positive one */
  const acrossPoles = (part: CarPart, positive: string, other: string): MarkLine => ({
    shown: texts.voltage(part.name, `${part.name}.${positive}`, `${part.name}.${other}`), next: { shown: texts.current(part.name, texts.currentAt(`${part.name}.${positive}`)) },
  });
  /** position of its contact, if it has one, and what flows */
  const through = (part: CarPart, amperes: number | undefined): readonly MarkLine[] => {
    const current: MarkLine = { shown: texts.current(part.name, amperes) };
    const role = contact(part);
    const position = role && texts.position(`${part.name}.${role.element}`);
    if (!role || position === undefined) return [current];
    if (position === 'closed') return [{ after: 'closed', next: current }];
    const across = texts.between(`${part.name}.${role.a}`, `${part.name}.${role.b}`);
    return [across === undefined ? { after: 'open' } : { before: 'open, ', shown: numbers.result(`across ${part.name}`, Math.abs(across), 'voltage') }];
  };
  const lines = (part: CarPart): readonly MarkLine[] => {
    if (part.missing.length > 0) return [{ after: 'not computed: data missing', isMuted: true }];
    const { cells, dcLink, mains } = part.roles;
    const high = part.ports.filter(({ carries }) => carries === 'high_voltage');
    const [plus, minus] = [cells?.positive ?? dcLink?.positive ?? high.find(({ pole }) => pole === 'positive')?.name, cells?.negative ?? dcLink?.negative ?? high.find(({ pole }) => pole === 'negative')?.name];
    const isBar = symbolOf(part.kind.kind).symbol === 'bar';
    if (isBar) return [...texts.rating(part), ...(negative === undefined || !high[0] ? [] : [{ shown: texts.voltage(part.name, `${part.name}.${high[0].name}`, negative) } satisfies MarkLine]), ...faultLine(part)];
    if (plus !== undefined && minus !== undefined) {
      const link: MarkLine[] = dcLink ? [{ before: 'link ', shown: numbers.field(`parts.${part.name}.link_capacitance`) ?? numbers.result(`link ${part.name}`, dcLink.capacitance, 'capacitance') }] : [];
      return [...texts.rating(part), acrossPoles(part, plus, minus), ...faultLine(part), ...link];
    }
    if (mains) return [...texts.rating(part), ...(high[0] ? [{ shown: texts.current(part.name, texts.currentAt(`${part.name}.${high[0].name}`)) }] : [])];
    const first = high.find(({ name }) => texts.runsAt(`${part.name}.${name}`).length > 0);
    return [...texts.rating(part), ...through(part, first ? texts.currentAt(`${part.name}.${first.name}`) : texts.solved && 0), ...faultLine(part)];
  };
  return {
    symbol, lines,
    placeLines: (place) => {
      const [part] = place.parts;
      if (!place.isCells || !part) return part ? lines(part) : [];
      const key = place.parts.length === 1 ? part.name : `${part.name} to ${place.parts.at(-1)!.name}`;
      const reversed = place.parts.filter(({ name, roles }) => car.parts.has(name) && roles.cells !== undefined && place.parts.length === 1 && `${name}.${roles.cells.negative}` === place.top);
      return [
        { before: place.parts.length === 1 ? '' : `${place.parts.length} modules, `, shown: texts.voltage(key, place.top, place.bottom) },
        { shown: texts.current(key, moduleCurrent(place, texts)) },
        ...faultLine(part),
        ...reversed.map(({ name }): MarkLine => ({ after: `${name} is the wrong way round` })),
      ];
    },
  };
}

const isHigh = (part: CarPart, port: string): boolean => part.ports.some(({ name, carries }) => name === port && carries === 'high_voltage');

/** Through modules in series: what the runs at one of their ends carry. */
function moduleCurrent({ top, bottom }: ColumnPlace, texts: CarTexts): number | undefined {
  const end = [top, bottom].find((point) => texts.runsAt(point).length > 0);
  return end === undefined ? texts.solved && 0 : texts.currentAt(end);
}

/** Less is what leaks through insulation and resistors: no short feeds it [A]. */
const NO_FAULT = 0.1;

/** As the subjects of the analysis found it: at equipment and ends, through fuses and contacts; elsewhere the highest that a run at the part carries. */
function faultsByPart(found: HighVoltageResults | undefined, car: Car, { runsAt }: CarTexts): (part: string) => number | undefined {
  const highest = new Map<string, number>();
  const note = (part: string, current: number | undefined): void => {
    if (current !== undefined && current > (highest.get(part) ?? NO_FAULT)) highest.set(part, current);
  };
  for (const { at, where, end, current } of found?.faults ?? []) if (end === 'high' && (where === 'equipment' || where === 'pack')) note(at, current);
  for (const { part, highestFault } of found?.fuses ?? []) note(part, highestFault);
  for (const { part, faultCurrent } of found?.contactors ?? []) note(part, faultCurrent);
  const byRun = new Map((found?.shortCircuits ?? []).map(({ run, faultCurrent }) => [run, faultCurrent]));
  for (const { name, ports } of car.parts.values()) {
    if (highest.has(name)) continue;
    for (const port of ports) for (const run of runsAt(`${name}.${port.name}`)) note(name, byRun.get(run.name));
  }
  return (part) => highest.get(part);
}
