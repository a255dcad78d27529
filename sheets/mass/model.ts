/** Mass: what was taken out and put in, axle loads, sides and centre of gravity before and after. */
import type { Analysis } from '../../core/analyse.ts';
import type { Finding, Level } from '../../core/findings/finding.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import type { Balance } from '../../core/topics/mass/balance.ts';
import type { MassEntry } from '../../core/topics/mass/masses.ts';
import type { MassResults } from '../../core/topics/mass/study.ts';
import { levelsBySubject } from '../levels.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { bare, down, numbersOf, up } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';
import type { Cell, Column, Row } from '../table/table.ts';
import { sideViewOf } from './side-view.ts';
import type { SideView } from './side-view.ts';

/** What an axle carries. Numbers [kg] for the length of the arrows. */
export interface AxleLoad { readonly name: string; readonly before: number | undefined; readonly after: number | undefined; readonly beforeShown: Shown; readonly afterShown: Shown; readonly rating: Shown | undefined; readonly level: Level | undefined }

export interface MassModel {
  readonly view: SideView;
  readonly wheelbase: Shown | undefined;
  /** front, rear */
  readonly axles: readonly [AxleLoad, AxleLoad];
  /** [m]; z undefined: the file does not say how high it lies */
  readonly centres: { readonly before: { readonly x: number; readonly z: number | undefined } | undefined; readonly after: { readonly x: number; readonly z: number | undefined } | undefined };
  readonly balance: { readonly columns: readonly Column[]; readonly rows: readonly Row[] };
  readonly entries: { readonly columns: readonly Column[]; readonly rows: readonly Row[] };
  /** findings of mass that do not hold, worst first */
  readonly open: readonly { readonly level: Level; readonly statement: string; readonly whatToDo: string; readonly path: string }[];
  /** what the whole balance needs and the file lacks */
  readonly missing: readonly string[];
  /** parts in words: how many have no mass or place */
  readonly counted: string;
}

const NO_RESULTS: MassResults = { entries: [], before: undefined, after: undefined, removed: 0, added: 0 };

export const massModel: SheetModel<MassModel> = {
  name: 'mass',
  model: ({ build, car, results, findings }: Analysis, { units }: Choices) => {
    const numbers = numbersOf(build, units);
    const mass = (results['mass'] as MassResults | undefined) ?? NO_RESULTS;
    const own = findings.filter(({ topic }) => topic === 'mass');
    const levelOf = (code: string): Level | undefined => own.find((finding) => finding.code === code)?.level;
    const axle = (name: string, side: 'front' | 'rear'): AxleLoad => ({
      name, before: mass.before?.[side], after: mass.after?.[side],
      beforeShown: numbers.field(`vehicle.${side}_axle_load`) ?? numbers.result(`mass.before.${side}`, mass.before?.[side], 'mass'),
      afterShown: numbers.result(`mass.after.${side}`, mass.after?.[side], 'mass', up), rating: numbers.field(`vehicle.${side}_axle_rating`), level: levelOf(`mass.${side}-axle`),
    });
    const centre = (balance: Balance | undefined): MassModel['centres']['before'] => balance && { x: balance.centreX, z: balance.centreZ };
    const lacking = mass.entries.filter(({ needs }) => needs.length > 0).length;
    return {
      view: sideViewOf(car), wheelbase: numbers.field('vehicle.wheelbase'),
      axles: [axle('Front axle', 'front'), axle('Rear axle', 'rear')],
      centres: { before: centre(mass.before), after: centre(mass.after) },
      balance: balanceTable(mass, numbers, own),
      entries: entryTable(mass, numbers, findings, car.vehicle['wheelbase'] as number | undefined),
      open: own.filter(({ level }) => level !== 'holds').map(({ level, statement, whatToDo, path }) => ({ level, statement, whatToDo, path })),
      missing: ['wheelbase', 'front_track', 'rear_track', 'front_axle_load', 'rear_axle_load'].filter((name) => car.vehicle[name] === undefined).map((name) => `vehicle.${name}`),
      counted: mass.entries.length === 0 ? 'Nothing was taken out and nothing put in: the file lists no removed things and no parts.'
        : lacking === 0 ? `All ${mass.entries.length} entries have a mass and a place.` : `${lacking} of ${mass.entries.length} entries have no mass or no place and do not count.`,
    };
  },
};

const balanceColumns: readonly Column[] = [
  { head: '', width: 40 }, { head: 'Before', width: 25, align: 'end', sure: true }, { head: 'After', width: 21, align: 'end' }, { head: 'Change', width: 20, align: 'end' },
  { head: 'Permitted', width: 22, align: 'end', sure: true }, { head: 'Room left', width: 21, align: 'end' }, { head: 'Stands at', width: 25 },
];

function balanceTable({ before, after, removed, added }: MassResults, numbers: Numbers, findings: readonly Finding[]): MassModel['balance'] {
  const row = (label: string, key: string, of: (balance: Balance) => number | undefined, quantity: QuantityName, more: { field?: string; rating?: string; code?: string } = {}): Row => {
    const [was, is] = [before && of(before), after && of(after)];
    const finding = findings.find(({ code }) => code === more.code);
    const rating = more.rating === undefined ? undefined : numbers.field(`vehicle.${more.rating}`);
    const room = more.rating === undefined || finding?.value === undefined || finding.limit === undefined ? undefined : finding.limit - finding.value;
    const cells: Cell[] = [
      label, (more.field === undefined ? undefined : numbers.field(`vehicle.${more.field}`)) ?? numbers.result(`mass.before.${key}`, was, quantity),
      numbers.result(`mass.after.${key}`, is, quantity, more.rating === undefined ? {} : up), signed(numbers, `mass.change.${key}`, was === undefined || is === undefined ? undefined : is - was, quantity),
      more.rating === undefined ? '' : rating, more.rating === undefined ? '' : numbers.result(`mass.room.${key}`, room, 'mass', down), finding ? { level: finding.level } : '',
    ];
    return { cells };
  };
  return {
    columns: balanceColumns,
    rows: [
      row('Whole vehicle', 'total', ({ total }) => total, 'mass', { rating: 'total_rating', code: 'mass.total' }),
      row('Front axle', 'front', ({ front }) => front, 'mass', { field: 'front_axle_load', rating: 'front_axle_rating', code: 'mass.front-axle' }),
      row('Rear axle', 'rear', ({ rear }) => rear, 'mass', { field: 'rear_axle_load', rating: 'rear_axle_rating', code: 'mass.rear-axle' }),
      row('Share of the front axle', 'share', ({ front, total }) => front / total, 'ratio', { code: 'mass.axle-share' }),
      row('Left side', 'left', ({ left }) => left, 'mass', { field: 'left_load', code: 'mass.sides' }),
      row('Right side', 'right', ({ right }) => right, 'mass'),
      row('Centre of gravity, behind the front axle', 'centre.x', ({ centreX }) => toMillimetre(centreX), 'coordinate'),
      row('Centre of gravity, right of the middle', 'centre.y', ({ centreY }) => toMillimetre(centreY), 'coordinate'),
      row('Centre of gravity, above the ground', 'centre.z', ({ centreZ }) => toMillimetre(centreZ), 'coordinate', { field: 'centre_of_gravity_height', code: 'mass.centre-height' }),
      { cells: ['Taken out', '', '', signed(numbers, 'mass.removed', -removed, 'mass'), '', '', ''] },
      { cells: ['Put in', '', '', signed(numbers, 'mass.added', added, 'mass'), '', '', ''] },
    ],
  };
}

const toMillimetre = (length: number | undefined): number | undefined => (length === undefined ? undefined : Math.round(length * 1000) / 1000);
const toTenGrams = (mass: number): number => Math.round(mass * 100) / 100;

/** With its sign. */
function signed(numbers: Numbers, key: string, value: number | undefined, quantity: QuantityName): Shown {
  const shown = numbers.result(key, value, quantity);
  return value !== undefined && value > 0 && !shown.text.startsWith('0') ? { ...shown, text: `+${shown.text}` } : shown;
}

const entryColumns: readonly Column[] = [
  { head: 'Name', width: 41 }, { head: 'Mass', width: 19, align: 'end' }, { head: 'Tolerance, basis', width: 31 }, { head: 'Behind front axle', width: 20, align: 'end' }, { head: 'Right of middle', width: 19, align: 'end' },
  { head: 'Above ground', width: 19, align: 'end' }, { head: 'On front axle', width: 18, align: 'end' }, { head: 'On rear axle', width: 18, align: 'end' },
];

function entryTable({ entries, removed, added }: MassResults, numbers: Numbers, findings: readonly Finding[], wheelbase: number | undefined): MassModel['entries'] {
  const levels = levelsBySubject(findings.filter(({ topic, level }) => topic === 'mass' && level !== 'holds'));
  const row = ({ name, change, mass, at }: MassEntry): Row => {
    const path = change === 'removed' ? `removed.${name}` : `parts.${name}`;
    const shown = numbers.field(`${path}.mass`);
    const level = levels.get(name);
    const sign = change === 'removed' ? -1 : 1;
    const onRear = mass === undefined || at === undefined || wheelbase === undefined || !(wheelbase > 0) ? undefined : (sign * mass * at[0]) / wheelbase;
    return {
      path, label: `${name}, ${change === 'removed' ? 'taken out' : 'put in'}`,
      cells: [
        level === undefined ? name : [name, { level }], shown && bare(shown), shown?.sure === undefined ? '' : { key: shown.key, path: shown.key, text: shown.sure },
        ...[0, 1, 2].map((axis) => { const place = numbers.field(`${path}.at.${axis}`); return place && bare(place); }),
        signed(numbers, `mass.${path}.front`, onRear === undefined || mass === undefined ? undefined : toTenGrams(sign * mass - onRear), 'mass'), signed(numbers, `mass.${path}.rear`, onRear === undefined ? undefined : toTenGrams(onRear), 'mass'),
      ],
    };
  };
  const group = (heading: string, change: MassEntry['change'], sum: number, none: string): Row[] => {
    const own = entries.filter((entry) => entry.change === change);
    return [{ heading }, ...(own.length === 0 ? [{ cells: [none, '', '', '', '', '', '', ''] }] : [...own.map(row), { cells: ['Together', numbers.result(`mass.sum.${change}`, sum, 'mass'), '', '', '', '', '', ''], total: true }])];
  };
  return { columns: entryColumns, rows: [...group('Taken out', 'removed', removed, 'nothing listed'), ...group('Put in', 'added', added, 'no parts')] };
}
