/** The pack: chains of modules with what joins and protects them, voltages along them, readings, figures, what each mode asks. */
import type { Analysis } from '../../core/analyse.ts';
import type { Car } from '../../core/car/car.ts';
import { stringsOf } from '../../core/car/strings.ts';
import type { Assembly, PackString } from '../../core/car/strings.ts';
import type { Finding, Level } from '../../core/findings/finding.ts';
import type { Joining } from '../../core/topics/pack/joining.ts';
import type { ModuleResult, PackResults } from '../../core/topics/pack/study.ts';
import { voltageClass as classOf } from '../../core/topics/pack/voltage-window.ts';
import type { VoltageClass } from '../../core/topics/pack/voltage-window.ts';
import { levelsBySubject } from '../levels.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';
import { chainsOf } from './chain.ts';
import type { Chain, Piece, Sign } from './chain.ts';
import { figuresOf, temperaturesOf } from './figures.ts';
import type { FigureRow, TemperatureRow } from './figures.ts';

/** Against pack negative, nothing drawn, every contact closed. */
export interface Potential { readonly now: Shown; readonly nominal: Shown; readonly lowest: Shown; readonly highest: Shown }

export interface PieceModel {
  readonly sign: Sign; readonly hasFuse: boolean;
  readonly name: string;
  /** `parts.M1`, `runs.H02` */
  readonly path: string;
  /** in words: `busbar`, `contactor` */
  readonly kind: string;
  readonly level: Level | undefined;
  readonly from: string; readonly to: string;
  readonly isReversed: boolean;
  readonly resistance: Shown;
  /** at its further end against pack negative; both ends of anything but a module stand the same */
  readonly potential: Potential | undefined;
  /** up to 60 V against pack negative, cells full: A; beyond: B; undefined: not known */
  readonly voltageClass: 'A' | 'B' | undefined;
  /** of a module */
  readonly cells: { readonly words: string; readonly reading: Shown | undefined; readonly deviation: Shown | undefined } | undefined;
}

export interface ChainModel {
  readonly name: string;
  /** modules in it */
  readonly modules: number;
  readonly negative: string; readonly positive: string;
  readonly pieces: readonly PieceModel[];
  /** its negative end is not the pack's: voltages count from its own end */
  readonly isOwnZero: boolean;
  readonly start: Potential | undefined;
  /** of the readings, per cell */
  readonly spread: Shown; readonly mean: Shown; readonly charge: Shown;
  readonly notRead: readonly string[];
  readonly shortedBy: readonly string[] | undefined;
}

export interface Remark { readonly level: Level; readonly statement: string; readonly whatToDo: string; readonly path: string }

export interface PackOnSheet {
  readonly chains: readonly ChainModel[];
  /** of the whole: undefined when not known */
  readonly voltageClass: VoltageClass | undefined;
  readonly highest: Shown;
  /** how strings stand to each other, in a sentence; undefined: there is one */
  readonly joined: readonly string[];
  readonly figureHeads: readonly string[];
  readonly figures: readonly FigureRow[];
  readonly temperatures: readonly TemperatureRow[];
}

export interface ModeRow {
  readonly mode: string; readonly path: string; readonly meaning: string | undefined; readonly failed: string | undefined; readonly lasts: Shown | undefined; readonly level: Level | undefined;
  readonly voltage: Shown; readonly current: Shown; readonly power: Shown; readonly heat: Shown; readonly lowestCell: Shown; readonly highestCell: Shown;
}

export interface PackModel {
  readonly packs: readonly PackOnSheet[];
  readonly modes: readonly ModeRow[];
  readonly remarks: readonly Remark[];
  /** modules joined to nothing, with their own poles joined, without the values to count them */
  readonly unconnected: readonly string[]; readonly shorted: readonly string[]; readonly notCounted: readonly string[];
  readonly charge: Shown; readonly cellTemperature: Shown;
}

/** Less than it is no heat to speak of [W]. */
const LITTLE_HEAT = 1e-3;

export const packModel: SheetModel<PackModel> = {
  name: 'pack',
  model: ({ build, car, findings, results }: Analysis, { units }: Choices): PackModel => {
    const numbers = numbersOf(build, units);
    const found = results.pack as PackResults | undefined;
    const levels = levelsBySubject(findings);
    const remarks = findings.filter(({ topic, level }) => topic === 'pack' && level !== 'holds').map(({ level, statement, whatToDo, path }): Remark => ({ level, statement: briefly(statement), whatToDo: briefly(whatToDo), path }));
    const conditions = { charge: numbers.field('conditions.state_of_charge') ?? numbers.result('pack.charge', car.conditions.stateOfCharge, 'ratio'), cellTemperature: numbers.field('conditions.cell_temperature') ?? numbers.result('pack.cells', car.conditions.cellTemperature, 'temperature') };
    if (!found) return { packs: [], modes: [], remarks, unconnected: [], shorted: [], notCounted: [], ...conditions };
    const modules = new Map(found.modules.map((module) => [module.name, module]));
    const packs = stringsOf(car).packs.map((pack, index): PackOnSheet => {
      const zeros = pack.assembly ? zeroOf(pack.assembly, modules) : new Map<PackString, Volts>();
      const result = found.packs[index];
      const strings = found.strings.filter((string) => string.pack === index);
      const figures = figuresOf(index, result?.figures, strings.length > 1 ? strings : [], numbers);
      return {
        chains: chainsOf(car, pack).map((chain) => chainModel(chain, { car, found, modules, levels, numbers, zero: zeros.get(chain.string) })),
        voltageClass: result?.voltageClass, highest: numbers.result(`pack.${index}.highest`, result?.figures?.maximumVoltage, 'voltage', { rounding: 'up' }),
        joined: found.joinings.filter(({ branches }) => branches.some((branch) => strings.some(({ name }) => name === branch))).map((joining) => joiningWords(joining, findings, numbers)),
        figureHeads: figures.heads, figures: figures.rows, temperatures: temperaturesOf(index, result?.figures, numbers),
      };
    });
    return { packs, modes: modeRows(found, build.modes, levels, numbers), remarks, unconnected: found.unconnected, shorted: found.shorted, notCounted: found.notCounted, ...conditions };
  },
};

/** Longest sentence of a row [letters]; a list of two hundred modules would fill a page by itself. */
const LONGEST = 600;

function briefly(text: string): string {
  if (text.length <= LONGEST) return text;
  const end = text.lastIndexOf(', ', LONGEST);
  return `${text.slice(0, end < 0 ? LONGEST : end)} and more of the same.`;
}

interface Volts { readonly now: number; readonly nominal: number; readonly lowest: number; readonly highest: number }
const nothing: Volts = { now: 0, nominal: 0, lowest: 0, highest: 0 };
const plus = (a: Volts, b: Volts, sign = 1): Volts => ({ now: a.now + sign * b.now, nominal: a.nominal + sign * b.nominal, lowest: a.lowest + sign * b.lowest, highest: a.highest + sign * b.highest });
const voltsOf = (module: ModuleResult): Volts => ({ now: module.openVoltage, nominal: module.nominalVoltage, lowest: module.minimumVoltage, highest: module.maximumVoltage });

/** Voltage of each string's negative end against pack negative; a string that is joined the wrong way round has none. */
function zeroOf(assembly: Assembly, modules: ReadonlyMap<string, ModuleResult>, from: Volts = nothing): ReadonlyMap<PackString, Volts> {
  if (assembly.form === 'string') return new Map([[assembly.string, from]]);
  const zeros = new Map<PackString, Volts>();
  let at = from;
  for (const { assembly: member, isOpposed } of assembly.members) {
    if (!isOpposed) for (const [string, zero] of zeroOf(member, modules, at)) zeros.set(string, zero);
    if (assembly.form === 'series') at = plus(at, riseOf(member, modules), isOpposed ? -1 : 1);
  }
  return zeros;
}

/** From its negative end to its positive end; of parallel strings the first counts. */
function riseOf(assembly: Assembly, modules: ReadonlyMap<string, ModuleResult>): Volts {
  if (assembly.form === 'parallel') return riseOf(assembly.members[0]!.assembly, modules);
  if (assembly.form === 'series') return assembly.members.reduce((sum, { assembly: member, isOpposed }) => plus(sum, riseOf(member, modules), isOpposed ? -1 : 1), nothing);
  return assembly.string.modules.reduce((sum, { part, isReversed }) => { const module = modules.get(part.name); return module ? plus(sum, voltsOf(module), isReversed ? -1 : 1) : sum; }, nothing);
}

interface Around { readonly car: Car; readonly found: PackResults; readonly modules: ReadonlyMap<string, ModuleResult>; readonly levels: ReadonlyMap<string, Level>; readonly numbers: Numbers; readonly zero: Volts | undefined }

function chainModel(chain: Chain, around: Around): ChainModel {
  const { found, numbers, zero, modules } = around;
  const { name } = chain.string;
  const readings = found.readings.find(({ string }) => string === name);
  const read = new Map(readings?.modules.map((module) => [module.module, module]));
  const perCell = [...read.values()].map((reading) => reading.perCell);
  const mean = perCell.length === 0 ? undefined : perCell.reduce((sum, value) => sum + value, 0) / perCell.length;
  // without the values of one module nothing beyond it is known
  let at: Volts | undefined = zero ?? nothing;
  const shown = (node: string, volts: Volts | undefined): Potential | undefined => volts && {
    now: numbers.result(`pack.at.${node}.now`, volts.now, 'voltage'), nominal: numbers.result(`pack.at.${node}.nominal`, volts.nominal, 'voltage'),
    lowest: numbers.result(`pack.at.${node}.lowest`, volts.lowest, 'voltage', { rounding: 'down' }), highest: numbers.result(`pack.at.${node}.highest`, volts.highest, 'voltage', { rounding: 'up' }),
  };
  const start = shown(chain.negative, at);
  // a circuit is of one class: whatever is joined to a dangerous voltage is as dangerous as the worst point of it (ISO 6469-3)
  const reached: (number | undefined)[] = [];
  const pieces = chain.pieces.map((piece): Omit<PieceModel, 'voltageClass'> => {
    const before: Volts | undefined = at;
    const module = piece.sign === 'module' ? modules.get(piece.name) : undefined;
    if (piece.sign === 'module') at = at && module && plus(at, voltsOf(module), piece.isReversed ? -1 : 1);
    reached.push(before && at && Math.max(Math.abs(before.highest), Math.abs(at.highest)));
    const reading = read.get(piece.name);
    const role = around.car.parts.get(piece.name)?.roles.cells;
    const off = reading && role && mean !== undefined && read.size > 1 ? reading.voltage - role.series * mean : undefined;
    return {
      ...pieceWords(piece, around), potential: shown(piece.to, at),
      cells: piece.sign !== 'module' || !role ? undefined : {
        words: `${role.series}s${role.parallel > 1 ? `${role.parallel}p` : ''} ${role.cell}`,
        reading: reading && numbers.field(`parts.${piece.name}.measured_voltage`), deviation: off === undefined ? undefined : deviationShown(`pack.off.${piece.name}`, off, numbers),
      },
    };
  });
  const voltageClass = reached.some((volts) => volts !== undefined && classOf(volts) !== 'A') ? 'B' : reached.includes(undefined) ? undefined : 'A';
  return {
    name, modules: chain.string.modules.length, negative: chain.negative, positive: chain.positive, pieces: pieces.map((piece): PieceModel => ({ ...piece, voltageClass })), start, isOwnZero: zero === undefined,
    spread: numbers.result(`pack.spread.${name}`, readings?.spread, 'voltage'), mean: numbers.result(`pack.mean.${name}`, mean, 'voltage', { digits: 4 }),
    charge: numbers.result(`pack.read-charge.${name}`, readings?.stateOfCharge, 'ratio'), notRead: readings?.notRead ?? [], shortedBy: chain.string.shortedBy?.through,
  };
}

/** A meter shows no more than half a millivolt; the sign always stands. */
function deviationShown(key: string, off: number, numbers: Numbers): Shown {
  const isNothing = Math.abs(off) < 5e-4;
  const shown = numbers.result(key, isNothing ? 0 : off, 'voltage', { digits: 2 });
  return off > 0 && !isNothing ? { ...shown, text: `+${shown.text}` } : shown;
}

function pieceWords(piece: Piece, { car, levels, numbers }: Around): Pick<PieceModel, 'sign' | 'hasFuse' | 'name' | 'path' | 'kind' | 'level' | 'from' | 'to' | 'isReversed' | 'resistance'> {
  const { sign, name, from, to, isReversed, hasFuse } = piece;
  const kind = sign === 'run' ? car.runs.get(name)?.kind.title : car.parts.get(name)?.kind.title;
  return { sign, hasFuse, name, from, to, isReversed, path: `${sign === 'run' ? 'runs' : 'parts'}.${name}`, kind: (kind ?? '').toLowerCase(), level: levels.get(name), resistance: numbers.result(`pack.resistance.${name}`, piece.resistance, 'resistance') };
}

/** What the finding says of it, or that readings are missing. */
function joiningWords({ branches, equalising, difference, fuller, emptier, limit, limitFrom, notRead }: Joining, findings: readonly Finding[], numbers: Numbers): string {
  const names = branches.join(' and ');
  if (notRead.length > 0) return `Strings ${names} are parallel. What flows when they are joined is not known: measure the voltage of ${notRead.join(', ')} first.`;
  const finding = findings.find(({ code, about }) => code === 'pack.joining-current' && branches.every((branch) => about.includes(branch)));
  if (!equalising || difference === undefined) return `Strings ${names} are parallel. ${finding?.whatToDo ?? ''}`.trim();
  return `Strings ${names} are parallel. As measured, ${fuller} stands ${numbers.say(difference, 'voltage', { rounding: 'up' })} above ${emptier}: joined like that, ${numbers.say(equalising.current, 'current', { rounding: 'up' })} flows at first, dying away with a time constant of ${numbers.say(equalising.timeConstant, 'time')}; ${numbers.say(equalising.charge, 'charge')} move over, ${numbers.say(equalising.heat, 'energy', { rounding: 'up' })} turn to heat.`
    + ` ${emptier} may take ${numbers.say(limit, 'current', { rounding: 'down' })} (${limitFrom === 'cells' ? 'its cells' : 'common practice'}). ${finding?.whatToDo ?? ''}`.trimEnd();
}

function modeRows(found: PackResults, modes: Analysis['build']['modes'], levels: ReadonlyMap<string, Level>, numbers: Numbers): readonly ModeRow[] {
  return found.modes.flatMap(({ mode, failed, lasts, strings, packs }) => (packs.length === 0 ? [undefined] : packs).map((pack, index): ModeRow => {
    const members = strings.filter(({ string }) => found.packs[index]?.strings.includes(string) === true);
    const value = (what: string, si: number | undefined, quantity: 'voltage' | 'current' | 'power', rounding: 'up' | 'down'): Shown => numbers.result(`pack.${mode}.${index}.${what}`, si, quantity, { rounding });
    const outward = (si: number | undefined): 'up' | 'down' => (si !== undefined && si < 0 ? 'down' : 'up');
    return {
      mode: packs.length > 1 ? `${mode}, pack ${index + 1}` : mode, path: `modes.${mode}`, meaning: modes.get(mode)?.meaning, failed, level: levels.get(mode),
      lasts: lasts === undefined ? undefined : numbers.field(`modes.${mode}.lasts`) ?? numbers.result(`pack.${mode}.lasts`, lasts, 'time'),
      voltage: value('voltage', pack?.voltage, 'voltage', 'down'), current: value('current', pack?.current, 'current', outward(pack?.current)), power: value('power', pack?.power, 'power', outward(pack?.power)), heat: pack && pack.heat < LITTLE_HEAT ? { key: `result:pack.${mode}.${index}.heat`, text: numbers.say(0, 'power') } : value('heat', pack?.heat, 'power', 'up'),
      lowestCell: value('lowest', members.length === 0 ? undefined : Math.min(...members.map(({ lowestCell }) => lowestCell)), 'voltage', 'down'),
      highestCell: value('highest-cell', members.length === 0 ? undefined : Math.max(...members.map(({ highestCell }) => highestCell)), 'voltage', 'up'),
    };
  }));
}

