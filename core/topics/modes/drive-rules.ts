/**
 * The published rules of electric propulsion, as far as modes and wiring show them: how drive is reached, what refuses it, what tells
 * the driver, what ends it. [un-r100] 5.3 and [iso-6469-2], both from memory: no clause of them was seen for this project.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { settingsIn } from '../../condition/condition.ts';
import type { Check } from '../../findings/finding.ts';
import { closedContacts, driveModes, reach, startModes, workedSettings, workedValues } from './mode-graph.ts';
import type { Held, WorkedSetting } from './mode-graph.ts';
import { settingIn } from './situation.ts';

/** Deliberate and different actions from switched off to a car that can move. [iso-6469-2], from memory. */
const ACTIONS = 2;

export interface DriveRules {
  readonly modes: readonly string[];
  /** settings without which no drive mode is entered */
  readonly actions: readonly WorkedSetting[];
  /** settings each of which, worked alone, opens every high-voltage contact while driving; empty when none does */
  readonly offBy: readonly WorkedSetting[];
  /** those of them that a hand works: where somebody stands who is to switch off */
  readonly stops: readonly WorkedSetting[];
}

/** @param switches  `first`: one switch that ends the drive is enough to know of; `all`: each of them is to be proved */
export function driveRules(car: Car, ask: Network, switches: 'first' | 'all'): { readonly results: DriveRules; readonly checks: readonly Check[] } {
  const modes = driveModes(car);
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction).map(({ name }) => name);
  if (movers.length === 0) return { results: { modes, actions: [], offBy: [], stops: [] }, checks: [] };
  if (modes.length === 0) {
    const none = ['modes.two-actions-to-drive', 'modes.no-drive-while-plugged', 'modes.drive-indicated', 'modes.one-action-off'];
    return { results: { modes, actions: [], offBy: [], stops: [] }, checks: none.map((code): Check => ({ code, about: movers.slice(0, 1), sense: 'is_true', needs: ['modes'] })) };
  }
  const actions = actionsToDrive(car, ask, modes);
  const offBy = offActions(car, ask, modes, switches);
  const stops = offBy.filter(({ part }) => isWorkedByHand(car, part));
  return {
    results: { modes, actions, offBy, stops },
    checks: [actionCheck(car, modes, actions), ...plugChecks(car, ask, modes), indicationCheck(car, ask, modes), offCheck(modes, stops)],
  };
}

/** Modes that come before a drive mode, and it. */
function onTheWay(car: Car, modes: readonly string[]): ReadonlySet<string> {
  const found = new Set(modes);
  for (const mode of found) for (const before of car.build.modes.get(mode)?.from ?? []) found.add(before);
  return found;
}

/** Worked settings that, left as they are in the parked car, keep every drive mode out of reach. */
function actionsToDrive(car: Car, ask: Network, modes: readonly string[]): readonly WorkedSetting[] {
  const mentioned = new Map<string, WorkedSetting>();
  for (const mode of onTheWay(car, modes)) for (const need of car.build.modes.get(mode)?.needs ?? []) for (const one of mentionedIn(car, need)) mentioned.set(`${one.part}.${one.setting}`, one);
  const [start] = startModes(car);
  return [...mentioned.values()].filter((one) => {
    const value = start === undefined ? undefined : settingIn(car, { mode: start }, one.part, one.setting);
    // what must stay as it is in the parked car is no action
    if (value === undefined || modes.every((mode) => settingIn(car, { mode }, one.part, one.setting) === value && !isMovedOnTheWay(car, modes, one, value))) return false;
    const { reached } = reach(car, ask, { [one.part]: { [one.setting]: value } });
    return !modes.some((mode) => reached.has(mode));
  });
}

function mentionedIn(car: Car, need: Parameters<typeof settingsIn>[0]): readonly WorkedSetting[] {
  return settingsIn(need).filter(({ part, setting }) => workedValues(car, part, setting).length > 0);
}

function isMovedOnTheWay(car: Car, modes: readonly string[], { part, setting }: WorkedSetting, value: unknown): boolean {
  return [...onTheWay(car, modes)].some((mode) => settingIn(car, { mode }, part, setting) !== value);
}

function actionCheck(car: Car, modes: readonly string[], actions: readonly WorkedSetting[]): Check {
  const way = [...onTheWay(car, modes)].map((mode) => car.build.modes.get(mode)!);
  const isSilent = way.every(({ needs, needsInWords }) => needs.length + needsInWords.length === 0);
  const inWords = way.flatMap(({ needsInWords }) => needsInWords);
  return {
    code: 'modes.two-actions-to-drive', about: [modes[0]!], value: actions.length, limit: ACTIONS, sense: 'at_least', quantity: 'number',
    ...(isSilent ? { needs: [`modes.${modes[0]!}.needs`] } : {}), ...(inWords.length > 0 ? { levelWhenBroken: 'watch' as const } : {}),
    details: { actions: actions.length === 0 ? 'nothing' : actions.map(({ part, setting }) => `${part}.${setting}`).join(' and '), words: inWords.length === 0 ? '' : ` In words stands: ${inWords.join('; ')}.` },
  };
}

/** With the plug in, no drive mode is entered. */
function plugChecks(car: Car, ask: Network, modes: readonly string[]): readonly Check[] {
  return [...car.parts.values()].filter(({ roles, kind }) => roles.mains?.inlet && kind.worked).map(({ name, kind }): Check => {
    const held: Held = { [name]: Object.fromEntries(kind.worked!.map((setting) => [setting, true])) };
    const { reached, refused } = reach(car, ask, held);
    const anyway = new Set(reach(car, ask).refused.flatMap(({ to, refusedBy }) => refusedBy.map(({ text }) => `${to} ${text}`)));
    const by = refused.flatMap(({ to, refusedBy }) => refusedBy.filter(({ text }) => !anyway.has(`${to} ${text}`)).map(({ text }) => `“${text}”`));
    const entered = modes.filter((mode) => reached.has(mode));
    const speaks = [...onTheWay(car, modes)].some((mode) => car.build.modes.get(mode)?.needs.some((need) => settingsIn(need).some(({ part }) => part === name)));
    const common = { code: 'modes.no-drive-while-plugged', about: [name, ...modes], limit: 1, sense: 'is_true' as const, details: { entered: entered.join(', '), by: by.length === 0 ? 'drive is not reached at all' : `refused by ${[...new Set(by)].join(', ')}` } };
    if (entered.length === 0) return { ...common, value: 1 };
    return { ...common, value: 0, ...(speaks ? {} : { needs: [`modes.${modes[0]!}.needs`] }) };
  });
}

/** Something lights or sounds in every drive mode that does not in the parked car. */
function indicationCheck(car: Car, ask: Network, modes: readonly string[]): Check {
  const lit = (mode: string): readonly string[] | undefined => {
    const solved = ask.solve({ mode });
    return solved.outcome !== 'solved' ? undefined : [...car.parts.values()].flatMap(({ name, names, roles }) => (roles.indicator && Math.abs(solved.currentOf(names.of(roles.indicator.element))) > LIT ? [name] : []));
  };
  const [start] = startModes(car);
  const parked = (start === undefined ? undefined : lit(start)) ?? [];
  const dark = modes.filter((mode) => (lit(mode) ?? []).filter((name) => !parked.includes(name)).length === 0);
  const telling = [...new Set(modes.flatMap((mode) => (lit(mode) ?? []).filter((name) => !parked.includes(name))))];
  // a display on the bus may say it: the file cannot show that
  const hasDisplay = [...car.parts.values()].some(({ ports, kind, roles }) => kind.family === 'low_voltage' && roles.consumers && !roles.switching && ports.some(({ name }) => name === 'can_h'));
  return { code: 'modes.drive-indicated', about: [dark[0] ?? modes[0]!, ...telling], value: dark.length === 0 ? 1 : 0, limit: 1, sense: 'is_true', ...(hasDisplay ? { levelWhenBroken: 'watch' as const } : {}), details: { dark: dark.join(', '), telling: telling.join(', ') } };
}

/** Current above which a lamp or buzzer is taken as lit [A]. */
const LIT = 1e-3;

/** Switches each of which opens every high-voltage contact, through wires alone, whatever the controllers are told; `first`: of those that a hand works. */
function offActions(car: Car, ask: Network, modes: readonly string[], switches: 'first' | 'all'): readonly WorkedSetting[] {
  const mode = modes[0]!;
  const closed = closedContacts(car, ask, { mode });
  if (closed === undefined || closed.length === 0) return [];
  const [start] = startModes(car);
  const byHand = workedSettings(car).filter(({ part }) => car.parts.get(part)!.roles.switching?.some(({ by }) => by === 'hand') && car.parts.get(part)!.roles.disconnect === undefined);
  const opens = ({ part, setting }: WorkedSetting): boolean => {
    const now = settingIn(car, { mode }, part, setting);
    const parked = start === undefined ? undefined : settingIn(car, { mode: start }, part, setting);
    const other = typeof now === 'boolean' ? !now : parked !== now ? parked : undefined;
    if (now === undefined || other === undefined) return false;
    return closedContacts(car, ask, { mode, set: { [part]: { [setting]: other } } })?.length === 0;
  };
  // each is a solve, and one is enough: what stands elsewhere in the parked car is the likeliest
  const isMoved = ({ part, setting }: WorkedSetting): boolean => start !== undefined && settingIn(car, { mode: start }, part, setting) !== settingIn(car, { mode }, part, setting);
  const likeliestFirst = [...byHand.filter(isMoved), ...byHand.filter((one) => !isMoved(one))];
  if (switches === 'all') return likeliestFirst.filter(opens);
  const found = likeliestFirst.filter(({ part }) => isWorkedByHand(car, part)).find(opens);
  return found === undefined ? [] : [found];
}

function isWorkedByHand(car: Car, part: string): boolean {
  return car.parts.get(part)!.roles.switching?.some(({ by, workedBy = 'hand' }) => by === 'hand' && workedBy === 'hand') === true;
}

function offCheck(modes: readonly string[], stops: readonly WorkedSetting[]): Check {
  return { code: 'modes.one-action-off', about: [modes[0]!, ...stops.map(({ part }) => part)], value: stops.length > 0 ? 1 : 0, limit: 1, sense: 'is_true' };
}
