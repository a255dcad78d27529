/** The figures that describe a car in a dozen lines. */
import type { Analysis } from '../../core/analyse.ts';
import type { MassResults } from '../../core/topics/mass/study.ts';
import type { PackResult, PackResults } from '../../core/topics/pack/study.ts';
import { down, up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import type { Row } from '../table/table.ts';

export interface KeyFigures {
  /** two columns: what, how much */
  readonly pack: readonly Row[];
  /** three columns: what, before, after */
  readonly vehicle: readonly Row[];
}

/** Of more packs than this only the first ones are shown; the sheet of the pack has them all. */
const MOST_PACKS = 2;

export function keyFigures({ results, car, build }: Analysis, numbers: Numbers): KeyFigures {
  const packs = (results['pack'] as PackResults | undefined)?.packs ?? [];
  const mass = results['mass'] as MassResults | undefined;
  const massRow = (label: string, key: 'total' | 'front' | 'rear', field?: string): Row => ({
    cells: [label, (field === undefined ? undefined : numbers.field(`vehicle.${field}`)) ?? numbers.result(`mass.before.${key}`, mass?.before?.[key], 'mass'), numbers.result(`mass.after.${key}`, mass?.after?.[key], 'mass', up)],
  });
  return {
    pack: packs.length === 0 ? [{ cells: ['Voltage, energy', 'no battery modules in the file'] }] : [...packs.slice(0, MOST_PACKS).flatMap((pack, index) => packRows(pack, index, packs.length > 1, numbers)), ...(packs.length > MOST_PACKS ? [{ cells: [`and ${packs.length - MOST_PACKS} more`, 'see the sheet Pack'] }] : [])],
    vehicle: [massRow('Mass', 'total'), massRow('Front axle', 'front', 'front_axle_load'), massRow('Rear axle', 'rear', 'rear_axle_load'), { cells: ['Parts and runs now', '', `${car.parts.size} and ${car.runs.size}`] }, { cells: ['Modes described', '', String(build.modes.size)] }],
  };
}

function packRows({ figures, strings, voltageClass }: PackResult, index: number, isOneOfSeveral: boolean, numbers: Numbers): Row[] {
  const key = `pack.${strings[0] ?? index}`;
  const heading: Row[] = isOneOfSeveral ? [{ heading: `Pack ${index + 1}, from ${strings[0] ?? 'no string'}` }] : [];
  if (!figures) return [...heading, { cells: ['Voltage, energy', 'not known: the modules are not joined to one pack yet'] }];
  const full: Row = { cells: ['Voltage, every cell full', numbers.result(`${key}.maximum`, figures.maximumVoltage, 'voltage', up)] };
  const energy: Row = { cells: ['Energy between the cells’ limits', numbers.result(`${key}.energy`, figures.usableEnergy, 'energy', down)] };
  const short: Row = { cells: ['Highest short-circuit current', numbers.result(`${key}.short`, figures.highestFault.shortCircuit, 'current', up)] };
  if (isOneOfSeveral) return [...heading, full, energy, short];
  return [
    { cells: ['Make-up', `${strings.length === 1 ? '' : `${strings.length} strings, `}${figures.series} cells in series`] },
    { cells: ['Voltage, every cell empty', numbers.result(`${key}.minimum`, figures.minimumVoltage, 'voltage', down)] },
    { cells: ['Voltage, nominal', numbers.result(`${key}.nominal`, figures.nominalVoltage, 'voltage')] },
    full,
    { cells: ['Voltage class', voltageClass === 'A' ? 'A, up to 60 V DC' : voltageClass === 'B' ? 'B, above 60 V DC' : 'above B, more than 1500 V DC'] },
    energy,
    { cells: ['Current it may give for good', numbers.result(`${key}.continuous`, figures.continuousDischarge, 'current', down)] },
    short,
  ];
}
