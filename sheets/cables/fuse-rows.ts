/** The schedules of fuses. */
import type { CarPart } from '../../core/car/car.ts';
import type { ProtectionRole } from '../../core/part/role.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { LowVoltageResults } from '../../core/topics/low-voltage/study.ts';
import type { Numbers, Shown } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import { fewNames } from '../table/few-names.ts';
import type { Cell, Column, Row } from '../table/table.ts';
import { current, named, stacked } from './run-rows.ts';
import type { Known } from './run-rows.ts';

const up = { rounding: 'up' } as const;
const down = { rounding: 'down' } as const;

const styleWords: Readonly<Record<ProtectionRole['style'], string>> = {
  full_range: 'full range', partial_range: 'partial range', blade: 'blade', pyrotechnic: 'pyrotechnic',
};

const highVoltageColumns: readonly Column[] = [
  { head: 'Fuse', width: 22 }, { head: 'Style', width: 25 }, { head: 'Rating', width: 18, align: 'end', sure: true }, { head: 'Air around', width: 17, align: 'end' }, { head: 'May carry for good', width: 18, align: 'end' },
  { head: 'Current for good', width: 23, align: 'end' }, { head: 'Highest fault', width: 18, align: 'end' }, { head: 'Can break', width: 21, align: 'end', sure: true }, { head: 'Lowest fault', width: 18, align: 'end' },
  { head: 'cleared in', width: 18, align: 'end' }, { head: 'DC voltage rating', width: 21, align: 'end', sure: true }, { head: 'Pack at most', width: 17, align: 'end' },
  { head: 'I²t to melt', width: 22, align: 'end', sure: true }, { head: 'I²t to clear', width: 22, align: 'end', sure: true }, { head: 'Opens for', width: 42, gap: 3 }, { head: 'Smallest margin', width: 32, align: 'end' }, { head: 'Stands at', width: 28, gap: 3 },
];

export function highVoltageFuses({ car, numbers, standing }: Known, results: HighVoltageResults | undefined): Section {
  const pack = results?.packs[0]?.maximumVoltage;
  const fuses = results?.fuses ?? [];
  return {
    title: 'High-voltage fuses',
    note: 'Faults are prospective currents: what would flow if nothing opened. Full range opens overloads and short circuits, partial range short circuits only, pyrotechnic on command only. Opens for: the runs whose worst short circuit this fuse ends.',
    table: {
      columns: highVoltageColumns,
      rows: fuses.length === 0 ? [{ heading: 'There is no high-voltage fuse in the file.' }] : fuses.map((fuse): Row => {
        const key = `fuse.${fuse.part}`;
        const role = roleOf(car.parts.get(fuse.part), fuse.rating);
        const at = fieldOf(fuse.part, numbers);
        return {
          path: `parts.${fuse.part}`, label: `fuse ${fuse.part}`,
          cells: [
            named(fuse.part, 'highVoltage'), styleWords[fuse.style], ratingCell(fuse.part, fuse.rating, numbers), numbers.result(`${key}.ambient`, fuse.ambient, 'temperature'), numbers.result(`${key}.allowed`, fuse.allowed, 'current', down),
            current(numbers, `${key}.current`, { current: fuse.continuousCurrent, mode: fuse.mode }), numbers.result(`${key}.highest`, fuse.highestFault, 'current', up), at('breaking_capacity', role?.breakingCapacity, 'current'), numbers.result(`${key}.lowest`, fuse.lowestFault, 'current', down),
            numbers.result(`${key}.clears`, fuse.clearingTime, 'time', up), at('voltage_rating', role?.voltageRating, 'voltage'), numbers.result(`${key}.pack`, pack, 'voltage', up),
            at('melting_energy', role?.meltingEnergy, 'heating_integral'), at('clearing_energy', role?.clearingEnergy, 'heating_integral'),
            openedBy(fuse.part, role, results), stacked(standing.margin(fuse.part)), standing.level(fuse.part),
          ],
        };
      }),
    },
  };
}

const lowVoltageColumns: readonly Column[] = [
  { head: 'Fuse', width: 30 }, { head: 'Body', width: 18 }, { head: 'Rating', width: 22, align: 'end', sure: true }, { head: 'May carry for good', width: 24, align: 'end' }, { head: 'Current for good', width: 30, align: 'end' },
  { head: 'Short behind it', width: 24, align: 'end' }, { head: 'Can break', width: 26, align: 'end', sure: true }, { head: 'DC voltage rating', width: 28, align: 'end', sure: true }, { head: 'Protects', width: 105, gap: 4 }, { head: 'Smallest margin', width: 45, align: 'end' }, { head: 'Stands at', width: 32, gap: 3 },
];

export function lowVoltageFuses({ car, numbers, standing }: Known, results: LowVoltageResults | undefined): Section {
  const fuses = results?.fuses ?? [];
  const protectedBy = new Map<string, string[]>();
  for (const { run, protectedBy: names } of results?.wires ?? []) for (const name of names) protectedBy.set(name, [...(protectedBy.get(name) ?? []), run]);
  return {
    title: '12 V fuses',
    note: 'Short behind it: the highest current of a dead short right behind the fuse, which it must be able to break.',
    table: {
      columns: lowVoltageColumns,
      rows: fuses.length === 0 ? [{ heading: 'There is no 12 V fuse in the file.' }] : fuses.map((fuse): Row => {
        const key = `fuse.${fuse.part}`;
        const role = roleOf(car.parts.get(fuse.part), fuse.rating);
        const at = fieldOf(fuse.part, numbers);
        return {
          path: `parts.${fuse.part}`, label: `fuse ${fuse.part}`,
          cells: [
            named(fuse.part, 'lowVoltage'), role?.form ?? undefined, ratingCell(fuse.part, fuse.rating, numbers), numbers.result(`${key}.allowed`, fuse.allowed, 'current', down), current(numbers, `${key}.current`, { current: fuse.steady, mode: fuse.steadyMode }),
            numbers.result(`${key}.prospective`, fuse.prospective, 'current', up), at('breaking_capacity', role?.breakingCapacity, 'current'), at('voltage_rating', role?.voltageRating, 'voltage'),
            listed(protectedBy.get(fuse.part) ?? []), stacked(standing.margin(fuse.part)), standing.level(fuse.part),
          ],
        };
      }),
    },
  };
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
