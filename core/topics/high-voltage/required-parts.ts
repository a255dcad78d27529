/**
 * What published rules and plain practice require to be there: a way to split the pack by hand, fuses, contacts in both poles,
 * an interlock loop, orange cables, and a border between the voltage classes that no run crosses.
 *
 * Rules for voltage class B only are not raised for a pack that stays at or below 60 V.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import { mainsSide } from '../../car/mains-runs.ts';
import type { Check } from '../../findings/finding.ts';
import { needsOf } from './check-numbers.ts';
import { TOUCHABLE } from './discharge.ts';
import { carriesHighVoltage, protectionOf } from './fuse-in-fault.ts';
import type { InterlockLoops } from './interlock-loop.ts';
import { interlockLoops } from './interlock-loop.ts';
import type { Link } from './link-transitions.ts';
import { linksOf, linkTransitions } from './link-transitions.ts';
import type { Branch, MetalPaths, Picture } from './metal-paths.ts';
import { isOnPack, metalPaths } from './metal-paths.ts';
import { sections } from './pack-sections.ts';
import { unfusedStrings } from './unfused-strings.ts';

/** A pack split by hand should leave no more than this share of its voltage in one piece [1]; common practice: near the middle. */
export const LARGEST_PIECE = 0.6;

export interface RequiredPartsResults {
  /** highest voltage of the pack in service [V]; undefined: not known */
  readonly packVoltage: number | undefined;
  readonly voltageClass: 'A' | 'B' | undefined;
  /** parts that split the pack by hand */
  readonly disconnects: readonly string[];
  /** voltage of each piece of the pack with all of them pulled, largest first [V] */
  readonly piecesWhenPulled: readonly number[];
  /** fuses on the high-voltage side */
  readonly fuses: readonly string[];
  /** parts with a voltage between their own poles when everything is off [V] */
  readonly liveWhenOff: Readonly<Record<string, number>>;
  readonly interlock: InterlockLoops;
}

/** Presence and place of what must be there. */
export function studyRequiredParts(car: Car, ask: Network): { readonly results: RequiredPartsResults; readonly checks: readonly Check[] } {
  const paths = metalPaths(car, ask);
  const packVoltage = paths.packs.packs[0]?.maximumVoltage;
  const isClassB = packVoltage !== undefined && packVoltage > TOUCHABLE;
  const off = paths.pictureOf(undefined);
  const interlock = interlockLoops(car, paths);
  const disconnects = disconnectsOf(paths);
  const pieces = piecesWhenPulled(paths);
  const liveWhenOff: Record<string, number> = {};
  const checks: Check[] = [...borderChecks(car)];

  if (hasHighVoltage(car)) checks.push(...classChecks(car, ask, paths, packVoltage));
  if (packVoltage !== undefined) checks.push(...fuseChecks(car, ask, paths, packVoltage));
  if (isClassB) {
    checks.push(...disconnectChecks(disconnects, pieces, packVoltage));
    if (off) checks.push(...offChecks(car, paths, off, liveWhenOff));
    checks.push(...interlockChecks(car, interlock), ...orangeChecks(car, () => true));
  } else checks.push(...orangeChecks(car, (run) => mainsSide(car).voltage > CLASS_A_ALTERNATING && mainsSide(car).runs.has(run)));
  return {
    results: {
      packVoltage, voltageClass: packVoltage === undefined ? undefined : isClassB ? 'B' : 'A', disconnects, piecesWhenPulled: pieces,
      fuses: protectionOf(car).filter(({ opensByHeat }) => opensByHeat).map(({ part }) => part), liveWhenOff, interlock,
    },
    checks,
  };
}

const hasHighVoltage = (car: Car): boolean => [...car.parts.values()].some(({ ports }) => ports.some(({ carries }) => carries === 'high_voltage'));

/** One finding says that the rules for class B are left out, or that it is not known whether they apply. The pack's own class is the pack subject's. */
function classChecks(car: Car, ask: Network, paths: MetalPaths, packVoltage: number | undefined): readonly Check[] {
  const common = { code: 'high-voltage.class-a-throughout', about: [], sense: 'at_most', quantity: 'voltage' } as const;
  if (packVoltage === undefined) return [{ ...common, needs: paths.packs.missing.length > 0 ? paths.packs.missing : ['parts'] }];
  if (packVoltage > TOUCHABLE) return [];
  // a part that makes more than 60 V behind a class A pack makes the car class B all the same
  return [{ ...common, value: Math.max(packVoltage, highestPoleVoltage(car, ask, paths)), limit: TOUCHABLE, details: { mains: mainsException(car) } }];
}

/** Mains pins are of class B whatever the battery is; said with the class, because the class of the battery says nothing of them. */
function mainsException(car: Car): string {
  const { voltage, runs } = mainsSide(car);
  if (voltage <= CLASS_A_ALTERNATING) return '';
  return ` The mains side is not class A: ${Math.round(voltage)} V alternating at the charger and its inlet, where class A ends at ${CLASS_A_ALTERNATING} V${runs.size > 0 ? ` (${[...runs.keys()].join(', ')})` : ''}: covered pins, orange cables and a protective conductor are required there; cables and conductor are checked.`;
}

/** Upper end of class A for alternating voltage [V rms] (UN R100 clause 2, ISO 6469-3). */
const CLASS_A_ALTERNATING = 30;

/** Highest voltage between the two poles of any link in any mode [V]. */
function highestPoleVoltage(car: Car, ask: Network, paths: MetalPaths): number {
  let highest = 0;
  for (const mode of car.modes.keys()) {
    const here = paths.pictureOf(mode);
    if (!here) continue;
    for (const { positive, negative } of linkTransitions(car, ask).links) highest = Math.max(highest, Math.abs(here.solved.voltageOf(positive) - here.solved.voltageOf(negative)));
  }
  return highest;
}

/** With all of them pulled and every contact closed, those with cells on both sides that nothing joins any more. */
function disconnectsOf(paths: MetalPaths): readonly string[] {
  const rest = paths.groups((branch) => !branch.isDisconnect);
  const hasCells = (node: string): boolean => isOnPack(paths, rest, node);
  return paths.branches.filter(({ isDisconnect, a, b }) => isDisconnect && !rest.same(a, b) && hasCells(a) && hasCells(b)).map(({ id }) => id.slice(0, id.indexOf('.')));
}

/** Contactors count as closed: a welded one must not join the pieces again. */
function piecesWhenPulled(paths: MetalPaths): readonly number[] {
  return sections(paths, (branch) => !branch.isDisconnect).map(({ highest }) => highest).sort((a, b) => b - a);
}

function disconnectChecks(disconnects: readonly string[], pieces: readonly number[], packVoltage: number): readonly Check[] {
  const largest = pieces[0] ?? 0;
  const checks: Check[] = [{
    code: 'high-voltage.disconnect-present', about: disconnects, value: disconnects.length, limit: 1, sense: 'at_least', quantity: 'number',
    details: { names: disconnects.join(', '), voltage: { value: packVoltage, quantity: 'voltage' } },
  }];
  if (disconnects.length > 0) {
    checks.push({
      code: 'high-voltage.disconnect-near-middle', about: disconnects, value: largest, limit: LARGEST_PIECE * packVoltage, sense: 'at_most', quantity: 'voltage',
      details: { voltage: { value: packVoltage, quantity: 'voltage' }, pieces: { value: pieces.length, quantity: 'number' } },
    });
  }
  return checks;
}

/** With every fuse taken out, no way may be left from the cells to a link, no loop of cells may stay closed, and no parallel string may stay joined. */
function fuseChecks(car: Car, ask: Network, paths: MetalPaths, packVoltage: number): readonly Check[] {
  const checks: Check[] = [];
  const transitions = linkTransitions(car, ask);
  const fuses = protectionOf(car).filter(({ opensByHeat }) => opensByHeat).length;
  const allFuses = paths.branches.filter(({ isFuse }) => isFuse).map(({ id }) => id);
  const isUnfused = (mode: string, { positive, negative }: Link): boolean => {
    const here = paths.pictureOf(mode);
    return here !== undefined && paths.liveWithout(here, allFuses).same(positive, negative);
  };
  for (const link of transitions.links) {
    const modes = transitions.liveModes(link);
    if (modes.length === 0) continue;
    const unfused = modes.filter((mode) => isUnfused(mode, link));
    checks.push({
      code: 'high-voltage.string-fuse-present', about: [link.part], value: unfused.length, limit: 0, sense: 'at_most', quantity: 'number',
      details: { modes: unfused.length > 0 ? unfused.join(', ') : modes.join(', '), fuses: { value: fuses, quantity: 'number' } },
    });
  }

  const loops = unfusedLoops(paths);
  const strings = unfusedStrings(car, paths);
  const largest = [...loops, ...strings.map(({ voltage }) => voltage)].reduce((most, voltage) => Math.max(most, voltage), 0);
  checks.push({
    code: 'high-voltage.parallel-strings-fused', about: [...car.parts.values()].filter(({ roles }) => roles.cells).map(({ name }) => name).slice(0, 1), value: Math.max(loops.length, strings.length), limit: 0, sense: 'at_most', quantity: 'number',
    // modules side by side below the touchable voltage: ordinary in bought modules too
    ...(largest <= TOUCHABLE ? { levelWhenBroken: 'watch' } : {}),
    details: { voltage: { value: largest, quantity: 'voltage' }, pack: { value: packVoltage, quantity: 'voltage' }, names: strings.length > 0 ? `from ${strings.map(({ name }) => name).join(', ')}` : 'a closed loop' },
  });
  return checks;
}

/** Voltage of the cells in each closed loop that no fuse interrupts, every contact closed [V]. */
function unfusedLoops(paths: MetalPaths): readonly number[] {
  const joins = (branch: Branch): boolean => !branch.isFuse;
  const metal = paths.groups((branch) => joins(branch) && branch.type !== 'cells');
  const nets = new Map<number, { to: number; emf: number }[]>();
  const loops: number[] = [];
  for (const branch of paths.branches) {
    if (branch.type !== 'cells' || !joins(branch)) continue;
    const [a, b] = [metal.of(branch.a), metal.of(branch.b)];
    const around = a === b ? 0 : climb(nets, b, a);
    // joined already: this source closes a loop, whose height is what stands between its ends
    if (around !== undefined) loops.push(Math.max(Math.abs(around), branch.voltage));
    else {
      nets.set(a, [...(nets.get(a) ?? []), { to: b, emf: -branch.voltage }]);
      nets.set(b, [...(nets.get(b) ?? []), { to: a, emf: branch.voltage }]);
    }
  }
  return loops;
}

/** Voltage gained on the one way between two nets of a tree; undefined when there is none. */
function climb(nets: ReadonlyMap<number, readonly { to: number; emf: number }[]>, from: number, to: number): number | undefined {
  const height = new Map([[from, 0]]);
  const queue = [from];
  for (let net = queue.pop(); net !== undefined; net = queue.pop()) {
    if (net === to) return height.get(net);
    for (const step of nets.get(net) ?? []) {
      if (height.has(step.to)) continue;
      height.set(step.to, height.get(net)! + step.emf);
      queue.push(step.to);
    }
  }
  return undefined;
}

/** With everything off: each part behind the contacts is dead between its poles, and neither pole still hangs on the pack. */
function offChecks(car: Car, paths: MetalPaths, off: Picture, liveWhenOff: Record<string, number>): readonly Check[] {
  const checks: Check[] = [];
  for (const part of car.parts.values()) {
    if (!isBehindContacts(part)) continue;
    const ports = part.ports.filter(({ carries }) => carries === 'high_voltage').map(({ name }) => part.names.of(name));
    let voltage = 0;
    for (const a of ports) for (const b of ports) if (off.solved.islandOf(a) === off.solved.islandOf(b)) voltage = Math.max(voltage, Math.abs(off.solved.voltageOf(a) - off.solved.voltageOf(b)));
    if (voltage < ROUNDING) voltage = 0;
    if (voltage > TOUCHABLE) liveWhenOff[part.name] = voltage;
    checks.push({ code: 'high-voltage.dead-when-off', about: [part.name], value: voltage, limit: TOUCHABLE, sense: 'at_most', quantity: 'voltage' });
    const joined = ports.filter((port) => isOnPack(paths, off.live, port));
    checks.push({
      code: 'high-voltage.both-poles-open', about: [part.name], value: joined.length, limit: 0, sense: 'at_most', quantity: 'number',
      details: { ports: joined.join(', ') },
    });
  }
  return checks;
}

/** Less is the solver's rounding [V]. */
const ROUNDING = 1e-6;

/** It uses or makes high voltage (two poles, or the pins of a charging inlet), and is no part of the pack, of its switching, of its fuses or of its bars. */
function isBehindContacts({ roles, ports, missing }: CarPart): boolean {
  if (missing.length > 0) return false;
  const isOfThePack = roles.cells ?? roles.disconnect ?? roles.isolationMonitor ?? roles.prechargeResistor ?? roles.prechargeConverter;
  if (isOfThePack !== undefined || (roles.protection ?? []).length > 0 || (roles.switching ?? []).some(({ by }) => by !== 'electronics')) return false;
  const poles = ports.filter(({ carries }) => carries === 'high_voltage');
  const isInlet = (roles.insulation ?? []).some(({ acSide }) => acSide);
  return isInlet || (poles.some(({ pole }) => pole === 'positive') && poles.some(({ pole }) => pole === 'negative'));
}

function interlockChecks(car: Car, loops: InterlockLoops): readonly Check[] {
  const contacts = loops.contacts;
  const checks: Check[] = [
    { code: 'high-voltage.interlock-present', about: contacts.slice(0, 1).map(({ part }) => part), value: contacts.length, limit: 1, sense: 'at_least', quantity: 'number' },
  ];
  if (contacts.length > 0) {
    checks.push({ code: 'high-voltage.interlock-one-loop', about: loops.loops.map(([first]) => first!), value: loops.loops.length, limit: 1, sense: 'at_most', quantity: 'number', details: { loops: loops.loops.map((parts) => parts.join(', ')).join(' and ') } });
    checks.push({ code: 'high-voltage.interlock-in-series', about: loops.bypassed.length > 0 ? loops.bypassed : contacts.slice(0, 1).map(({ part }) => part), value: loops.bypassed.length, limit: 0, sense: 'at_most', quantity: 'number', details: { names: loops.bypassed.join(', ') } });
    // what has a high-voltage plug that can be pulled: power electronics and the disconnect
    for (const part of [...new Set([...linksOf(car).map((link) => link.part), ...[...car.parts.values()].filter(({ roles }) => roles.disconnect).map(({ name }) => name)])]) {
      checks.push({ code: 'high-voltage.interlock-covers', about: [part], value: loops.guarded.includes(part) ? 1 : 0, limit: 1, sense: 'is_true' });
    }
  }
  return checks;
}

/** One check a stock: cables of one reel have one colour. Bars are not covered, and lie inside enclosures. */
function orangeChecks(car: Car, isClassB: (run: string) => boolean): readonly Check[] {
  const reels = new Map<string, { runs: string[]; colour: string | undefined; path: string }>();
  for (const run of car.runs.values()) {
    if (run.carries !== 'high_voltage' || run.conductor?.shape.form !== 'round' || !isClassB(run.name)) continue;
    const stock = car.build.runs.get(run.name)?.stock;
    const colour = run.conductor.colour;
    const key = `${stock ?? `run ${run.name}`}|${colour ?? ''}`;
    const reel = reels.get(key);
    if (reel) reel.runs.push(run.name);
    else reels.set(key, { runs: [run.name], colour, path: stock === undefined ? `runs.${run.name}.colour` : `stock.${stock}.colour` });
  }
  return [...reels.values()].map(({ runs, colour, path }): Check => ({
    code: 'high-voltage.cable-orange', about: runs, path, value: colour?.trim().toLowerCase() === 'orange' ? 1 : 0, limit: 1, sense: 'is_true',
    ...needsOf(colour === undefined ? [path] : []), details: { colour: colour ?? 'not stated', runs: runs.join(', ') },
  }));
}

/** A run from a high-voltage port to one of the low-voltage side joins the two sides of the car. */
function borderChecks(car: Car): readonly Check[] {
  const isHighVoltage = (node: string): boolean => {
    const dot = node.indexOf('.');
    const part = car.parts.get(node.slice(0, dot));
    return part !== undefined && carriesHighVoltage(part, node.slice(dot + 1));
  };
  // a run counts as high voltage as soon as one of its ends does
  const crossing = [...car.runs.values()].filter(({ carries, from, to }) => carries === 'high_voltage' && isHighVoltage(from) !== isHighVoltage(to));
  if (crossing.length === 0) return hasHighVoltage(car) ? [{ code: 'high-voltage.class-border', about: [], value: 0, limit: 0, sense: 'at_most', quantity: 'number', details: { from: '', to: '' } }] : [];
  return crossing.map(({ name, from, to }): Check => ({ code: 'high-voltage.class-border', about: [name], value: 1, limit: 0, sense: 'at_most', quantity: 'number', details: { from, to } }));
}
