/** The schedules of fuses. */
import type { CarPart } from '../../core/car/car.ts';
import type { ProtectionRole } from '../../core/part/role.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { LowVoltageResults } from '../../core/topics/low-voltage/study.ts';
import { down, up } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import { fewNames } from '../table/few-names.ts';
import type { Cell, Column, Row } from '../table/table.ts';
import { current, named, stacked } from './run-rows.ts';
import type { Known } from './run-rows.ts';

const styleWords: Readonly<Record<ProtectionRole['style'], string>> = {
  full_range: 'full range', partial_range: 'partial range', blade: 'blade', pyrotechnic: 'pyrotechnic',
};

const highVoltageColumns: readonly Column[] = [
  { head: 'Fuse', width: 22 }, { head: 'Style', width: 25 }, { head: 'Rating', width: 18, align: 'end', sure: true }, { head: 'Air around', width: 17, align: 'end' }, { head: 'May carry for good', width: 18, align: 'end' },
  { head: 'Current for good', width: 23, align: 'end' }, { head: 'Highest fault', width: 18, align: 'end' }, { head: 'Can break', width: 21, align: 'end', sure: true }, { head: 'Lowest fault', width: 18, align: 'end' },
  { head: 'cleared in', width: 18, align: 'end' }, { head: 'DC voltage rating', width: 21, align: 'end', sure: true }, { head: 'Pack at most', width: 17, align: 'end' },
  { head: 'I²t to melt', width: 22, align: 'end', sure: true }, { head: 'I²t to clear', width: 22, align: 'end', sure: true }, { head: 'Opens for', width: 42, gap: 3 }, { head: 'Smallest margin', width: 32, align: 'end' }, { head: 'Stands at', width: 28, gap: 3 },
];

export function highVoltageFuses(known: Known, results: HighVoltageResults | undefined): Section {
  const { numbers } = known;
  const pack = results?.packs[0]?.maximumVoltage;
  return {
    title: 'High-voltage fuses',
    note: 'Faults are prospective currents: what would flow if nothing opened. Full range opens overloads and short circuits, partial range short circuits only, pyrotechnic on command only. Opens for: the runs whose worst short circuit this fuse ends.',
    table: {
      columns: highVoltageColumns,
      rows: fuseRows(results?.fuses ?? [], known, 'There is no high-voltage fuse in the file.', (fuse, { key, role, rating, at }) => [
        named(fuse.part, 'highVoltage'), styleWords[fuse.style], rating, numbers.result(`${key}.ambient`, fuse.ambient, 'temperature'), numbers.result(`${key}.allowed`, fuse.allowed, 'current', down),
        current(numbers, `${key}.current`, { current: fuse.continuousCurrent, mode: fuse.mode }), numbers.result(`${key}.highest`, fuse.highestFault, 'current', up), at('breaking_capacity', role?.breakingCapacity, 'current'), numbers.result(`${key}.lowest`, fuse.lowestFault, 'current', down),
        numbers.result(`${key}.clears`, fuse.clearingTime, 'time', up), at('voltage_rating', role?.voltageRating, 'voltage'), numbers.result(`${key}.pack`, pack, 'voltage', up),
        at('melting_energy', role?.meltingEnergy, 'heating_integral'), at('clearing_energy', role?.clearingEnergy, 'heating_integral'), openedBy(fuse.part, role, results),
      ]),
    },
  };
}

const lowVoltageColumns: readonly Column[] = [
  { head: 'Fuse', width: 30 }, { head: 'Body', width: 18 }, { head: 'Rating', width: 22, align: 'end', sure: true }, { head: 'May carry for good', width: 24, align: 'end' }, { head: 'Current for good', width: 30, align: 'end' },
  { head: 'Short behind it', width: 24, align: 'end' }, { head: 'Can break', width: 26, align: 'end', sure: true }, { head: 'DC voltage rating', width: 28, align: 'end', sure: true }, { head: 'Protects', width: 105, gap: 4 }, { head: 'Smallest margin', width: 45, align: 'end' }, { head: 'Stands at', width: 32, gap: 3 },
];

export function lowVoltageFuses(known: Known, results: LowVoltageResults | undefined): Section {
  const { numbers } = known;
  const protectedBy = new Map<string, string[]>();
  for (const { run, protectedBy: names } of results?.wires ?? []) for (const name of names) protectedBy.set(name, [...(protectedBy.get(name) ?? []), run]);
  return {
    title: '12 V fuses',
    note: 'Short behind it: the highest current of a dead short right behind the fuse, which it must be able to break.',
    table: {
      columns: lowVoltageColumns,
      rows: fuseRows(results?.fuses ?? [], known, 'There is no 12 V fuse in the file.', (fuse, { key, role, rating, at }) => [
        named(fuse.part, 'lowVoltage'), role?.form, rating, numbers.result(`${key}.allowed`, fuse.allowed, 'current', down), current(numbers, `${key}.current`, { current: fuse.steady, mode: fuse.steadyMode }),
        numbers.result(`${key}.prospective`, fuse.prospective, 'current', up), at('breaking_capacity', role?.breakingCapacity, 'current'), at('voltage_rating', role?.voltageRating, 'voltage'), listed(protectedBy.get(fuse.part) ?? []),
      ]),
    },
  };
}

/** What both schedules say of a fuse from its part. */
interface Own { readonly key: string; readonly role: ProtectionRole | undefined; readonly rating: Shown; readonly at: ReturnType<typeof fieldOf> }

/** A row a fuse; its margin and level stand last. */
function fuseRows<F extends { readonly part: string; readonly rating: number }>(fuses: readonly F[], { car, numbers, standing }: Known, none: string, cellsOf: (fuse: F, own: Own) => readonly Cell[]): readonly Row[] {
  if (fuses.length === 0) return [{ heading: none }];
  return fuses.map((fuse) => {
    const { part } = fuse;
    const own: Own = { key: `fuse.${part}`, role: roleOf(car.parts.get(part), fuse.rating), rating: ratingCell(part, fuse.rating, numbers), at: fieldOf(part, numbers) };
    return { path: `parts.${part}`, label: `fuse ${part}`, cells: [...cellsOf(fuse, own), stacked(standing.margin(part)), standing.level(part)] };
  });
}

/** Of a part with several fuses the one with this rating. */
function roleOf(part: CarPart | undefined, rating: number): ProtectionRole | undefined {
  const roles = part?.roles.protection ?? [];
  return roles.find((role) => role.rating === rating) ?? roles[0];
}

/** What the file says, so that it can be changed here; else what the part is taken to have; else —. */
function fieldOf(part: string, numbers: Numbers): (field: string, value: number | undefined, quantity: 'current' | 'voltage' | 'heating_integral') => Shown | undefined {
  return (field, value, quantity) => numbers.field(`parts.${part}.${field}`) ?? (value === undefined ? undefined : numbers.result(`fuse.${part}.${field}`, value, quantity));
}

/** A disconnect has a rating of its own beside that of the fuse inside. */
function ratingCell(part: string, rating: number, numbers: Numbers): Shown {
  return numbers.field(`parts.${part}.fuse_rating`) ?? numbers.field(`parts.${part}.rating`) ?? numbers.result(`fuse.${part}.rating`, rating, 'current');
}

const listed = (names: readonly string[]): Cell => (names.length === 0 ? { text: 'nothing here', tone: 'muted' } : fewNames(names));

/** A fuse in series with one that lets more through is nobody's worst; one whose sheet is missing cannot be told. */
function openedBy(fuse: string, role: ProtectionRole | undefined, results: HighVoltageResults | undefined): Cell {
  const runs = (results?.shortCircuits ?? []).filter((short) => short.fuse?.split(' and ').includes(fuse)).map(({ run }) => run);
  if (runs.length > 0) return fewNames(runs);
  return role?.clearingEnergy === undefined ? undefined : { text: 'no run’s worst case', tone: 'muted' };
}
