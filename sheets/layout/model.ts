/** The layout: where every part sits, where the runs go, what stands on the axles, where the weight is. */
import type { Analysis } from '../../core/analyse.ts';
import type { CarPart, CarRun } from '../../core/car/car.ts';
import { ownerOf } from '../../core/car/metal-graph.ts';
import type { Level } from '../../core/findings/finding.ts';
import type { Position } from '../../core/part/field.ts';
import type { Balance } from '../../core/topics/mass/balance.ts';
import type { MassResults } from '../../core/topics/mass/study.ts';
import { levelsBySubject } from '../levels.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';

export type Family = 'high_voltage' | 'low_voltage' | 'mechanical';

export interface LayoutPart {
  readonly name: string;
  /** its number on the sheet and in the parts list, from 1 in the order of the file */
  readonly item: number;
  /** in words: `Battery module` */
  readonly kind: string;
  readonly family: Family;
  /** a tool beside the vehicle: no place of it is missing */
  readonly isBeside: boolean;
  /** middle of its box [m]; undefined: the file gives no place */
  readonly at: Position | undefined;
  /** along x, y, z [m]; undefined: the file gives no size */
  readonly size: Position | undefined;
  readonly level: Level | undefined;
  /** coordinates and sizes one by one, as they can be changed */
  readonly shown: { readonly at: readonly Shown[] | undefined; readonly size: readonly Shown[] | undefined; readonly mass: Shown | undefined };
}

export interface LayoutRun {
  readonly name: string;
  readonly carries: CarRun['carries'];
  readonly from: string; readonly to: string;
  /** middle of part to middle of part, through the points of its route [m] */
  readonly points: readonly Position[];
  /** its route is given (`via`) */
  readonly isRouted: boolean;
  readonly level: Level | undefined;
  readonly length: Shown;
}

/** A load before and after the work; — where it is not known. */
export interface Change { readonly before: Shown; readonly after: Shown; readonly level: Level | undefined; readonly rating: Shown | undefined }

export interface CentreOfGravity {
  /** [m]; an axis that is not known is undefined */
  readonly x: number; readonly y: number | undefined; readonly z: number | undefined;
  readonly shown: readonly [Shown, Shown, Shown];
}

export interface LayoutModel {
  readonly parts: readonly LayoutPart[];
  readonly runs: readonly LayoutRun[];
  /** runs that cannot be drawn: one of their parts has no place */
  readonly notDrawn: readonly { readonly name: string; readonly from: string; readonly to: string }[];
  readonly vehicle: {
    /** [m] */
    readonly wheelbase: number | undefined; readonly frontTrack: number | undefined; readonly rearTrack: number | undefined;
    readonly shown: { readonly wheelbase: Shown | undefined; readonly frontTrack: Shown | undefined; readonly rearTrack: Shown | undefined };
  };
  readonly loads: { readonly front: Change; readonly rear: Change; readonly left: Change; readonly right: Change; readonly total: Change };
  readonly centre: { readonly before: CentreOfGravity | undefined; readonly after: CentreOfGravity | undefined };
}

export const layoutModel: SheetModel<LayoutModel> = {
  name: 'layout',
  model: ({ build, car, findings, results }: Analysis, { units }: Choices): LayoutModel => {
    const numbers = numbersOf(build, units);
    const levels = levelsBySubject(findings);
    const mass = results.mass as MassResults | undefined;
    const places = new Map([...car.parts.values()].map(({ name, at }) => [name, at]));
    const length = (name: string): number | undefined => car.vehicle[name] as number | undefined;
    const drawn: LayoutRun[] = [];
    const notDrawn: LayoutModel['notDrawn'][number][] = [];
    for (const run of car.runs.values()) {
      const points = routeOf(run, places);
      if (points) drawn.push(runOf(run, points, levels.get(run.name), numbers));
      else notDrawn.push({ name: run.name, from: run.from, to: run.to });
    }
    const axleLevel = (code: string): Level | undefined => findings.find((finding) => finding.code === code)?.level;
    const change = (key: string, of: (balance: Balance) => number | undefined, code?: string, rating?: string): Change => ({
      before: numbers.result(`layout.${key}.before`, mass?.before && of(mass.before), 'mass'),
      // a limit may be near: never rounded to the kinder side
      after: numbers.result(`layout.${key}.after`, mass?.after && of(mass.after), 'mass', { rounding: 'up' }),
      level: code === undefined ? undefined : axleLevel(code), rating: rating === undefined ? undefined : numbers.field(`vehicle.${rating}`),
    });
    return {
      parts: [...car.parts.values()].map((part, index) => partOf(part, index + 1, levels.get(part.name), numbers)),
      runs: drawn, notDrawn,
      vehicle: {
        wheelbase: length('wheelbase'), frontTrack: length('front_track'), rearTrack: length('rear_track'),
        shown: { wheelbase: numbers.field('vehicle.wheelbase'), frontTrack: numbers.field('vehicle.front_track'), rearTrack: numbers.field('vehicle.rear_track') },
      },
      loads: {
        front: change('front', (balance) => balance.front, 'mass.front-axle', 'front_axle_rating'), rear: change('rear', (balance) => balance.rear, 'mass.rear-axle', 'rear_axle_rating'),
        left: change('left', (balance) => balance.left, 'mass.sides'), right: change('right', (balance) => balance.right, 'mass.sides'),
        total: change('total', (balance) => balance.total, 'mass.total', 'total_rating'),
      },
      centre: { before: mass?.before && centreOf('before', mass.before, numbers), after: mass?.after && centreOf('after', mass.after, numbers) },
    };
  },
};

const madeOf = new WeakMap<CarPart, { readonly reader: string; readonly made: LayoutPart }>();

/** A part that the edit left alone is the one that was made before. */
function partOf(part: CarPart, item: number, level: Level | undefined, numbers: Numbers): LayoutPart {
  const known = madeOf.get(part);
  if (known?.reader === numbers.reader && known.made.item === item && known.made.level === level) return known.made;
  const made = makePart(part, item, level, numbers);
  madeOf.set(part, { reader: numbers.reader, made });
  return made;
}

function makePart(part: CarPart, item: number, level: Level | undefined, numbers: Numbers): LayoutPart {
  const { name, kind, at, size } = part;
  return {
    name, item, kind: kind.title, family: familyOf(part), isBeside: kind.standsBeside === true, at, size, level,
    shown: { at: eachOf(at, `parts.${name}.at`, 'coordinate', numbers), size: eachOf(size, `parts.${name}.size`, 'length', numbers), mass: numbers.field(`parts.${name}.mass`) },
  };
}

/** To the millimetre also beyond a metre: a place must not move by being printed. */
function eachOf(values: Position | undefined, path: string, quantity: 'coordinate' | 'length', numbers: Numbers): readonly Shown[] | undefined {
  return values?.map((value, axis) => ({ key: `${path}.${axis}`, path: `${path}.${axis}`, text: numbers.say(value, quantity, { digits: 4 }) }));
}

/** What its ports carry decides: a bar may stand on either side. */
function familyOf({ kind, ports }: CarPart): Family {
  if (ports.some(({ carries }) => carries === 'high_voltage')) return 'high_voltage';
  return kind.family === 'mechanical' || ports.length === 0 ? kind.family : 'low_voltage';
}

/** undefined: one of its ends has no place. */
function routeOf(run: CarRun, places: ReadonlyMap<string, Position | undefined>): readonly Position[] | undefined {
  const [from, to] = [run.from, run.to].map((end) => places.get(ownerOf(end)));
  return from && to && [from, ...((run.fields['via'] ?? []) as readonly Position[]), to];
}

function runOf({ name, carries, from, to, length, lengthIs }: CarRun, points: readonly Position[], level: Level | undefined, numbers: Numbers): LayoutRun {
  return { name, carries, from, to, points, isRouted: points.length > 2, level, length: (lengthIs === 'given' ? numbers.field(`runs.${name}.length`) : undefined) ?? numbers.result(`layout.length.${name}`, length, 'length') };
}

function centreOf(when: 'before' | 'after', { centreX, centreY, centreZ }: Balance, numbers: Numbers): CentreOfGravity {
  const shown = (axis: string, value: number | undefined): Shown => numbers.result(`layout.centre.${when}.${axis}`, value, 'coordinate', { digits: 3 });
  return { x: centreX, y: centreY, z: centreZ, shown: [shown('x', centreX), shown('y', centreY), shown('z', centreZ)] };
}
