/** Effects, notices and second failures in words for the builder. Numbers go through `say`. */
import type { QuantityName } from '../../quantity/quantity-table.ts';
import type { Effect, EffectSort, Notice, SecondFailure, SingleFailure } from './effect.ts';

export type Say = (si: number, quantity: QuantityName, options?: { readonly rounding?: 'up' | 'down' }) => string;

const MOST = 4;
export const names = (list: readonly string[], most = MOST): string => (list.length <= most + 1 ? list.join(', ') : `${list.slice(0, most).join(', ')} and ${list.length - most} more`);

/** @param isHandsOff  key and switches are off while the controllers hold on */
export function effectWords({ sort, about, amount, later = [] }: Effect, isHandsOff: boolean, say: Say): string {
  const list = names(about);
  const verb = (one: string, several: string): string => (about.length === 1 ? one : several);
  switch (sort) {
    case 'high_voltage_on': return `${say(amount ?? 0, 'voltage', { rounding: 'up' })} ${isHandsOff ? 'stay on' : 'stand'} at ${list}${isHandsOff ? '' : ' where there should be none'}`;
    case 'drives_plugged': return `drives away with the plug in ${list}`;
    case 'torque_appears': return isHandsOff ? `${list} still ${verb('drives', 'drive')}` : `${list} ${verb('drives', 'drive')} unasked`;
    case 'overheats': return `${list} ${verb('overheats', 'overheat')}, ${say(amount ?? 0, 'current')}, ${later.length === 0 ? 'and no fuse opens' : `before ${names(later)} ${later.length === 1 ? 'opens' : 'open'}`}`;
    case 'overvoltage': return `nothing takes what is fed into the high voltage at ${list}: it rises until the unit limits itself`;
    case 'mains_trips': return 'mains on the body: the residual-current device or breaker of the outlet must open (not in the file)';
    case 'output_trips': return `an output of ${list} is overloaded and must switch itself off`;
    case 'contact_closes': return isHandsOff ? `${list} ${verb('stays', 'stay')} closed` : `${list} closed unasked`;
    case 'contacts_drop': return `${list} ${verb('opens', 'open')}`;
    case 'loop_bypassed': return `an open contact at ${list} is not noticed`;
    case 'monitor_blind': return `${list} ${verb('does', 'do')} not watch the insulation`;
    case 'leak': return `high voltage has a way to the body or the 12 V side`;
    case 'torque_lost': return `${list}: no torque`;
    case 'gives_nothing': return `${list} ${verb('gives', 'give')} nothing`;
    case 'fuse_opens': return `${verb('fuse', 'fuses')} ${list} ${verb('opens', 'open')}`;
    case 'supply_lost': return `no supply: ${list}`;
    case 'stops': return `does not work: ${list}`;
    case 'runs_unasked': return isHandsOff ? `stays awake: ${list}` : `runs unasked: ${list}`;
    case 'heats': return 'gets hot under load; how hot is not computed';
    case 'not_solved': return 'cannot be told: the network has no operating point';
  }
}

export function noticeWords({ by, about }: Notice): string {
  switch (by) {
    case 'lamp': return `lamp ${names(about)} changes`;
    case 'monitor': return `${names(about)} warns`;
    case 'refusal': return `refuses ${names(about)}`;
    case 'car_stops': return 'the car loses drive';
  }
}

export function secondWords(second: SecondFailure | undefined): string {
  if (!second) return '';
  switch (second.sort) {
    case 'contact': return `${names(second.by)} closed too: high voltage outside the contactors`;
    case 'cover': return `a cover opened at ${names(second.by)}: live, and not noticed`;
    case 'leak': return 'a second leak: a shock, or a short circuit through the body';
    case 'program': return 'the controller holds on as well: its program alone lets go';
  }
}

/** Order in which effects of one failure are read: worst first. */
const WEIGHT: readonly EffectSort[] = ['high_voltage_on', 'drives_plugged', 'torque_appears', 'overheats', 'loop_bypassed', 'contact_closes', 'monitor_blind', 'leak', 'overvoltage', 'contacts_drop', 'torque_lost', 'fuse_opens', 'output_trips', 'mains_trips', 'gives_nothing', 'supply_lost', 'stops', 'runs_unasked', 'heats', 'not_solved'];

export interface Said { readonly text: string; readonly sort: EffectSort; readonly modes: readonly string[] }

/** What happens, each effect once with its modes (`drive, switched off` where hands have let go), worst first. */
export function happens({ modes }: SingleFailure, say: Say): readonly Said[] {
  const found = new Map<string, { sort: EffectSort; modes: string[]; about: string[]; amount: number | undefined; later: readonly string[] | undefined; isHandsOff: boolean }>();
  for (const { mode, handsAs, effects } of modes) {
    for (const { sort, about, amount, later = [] } of effects) {
      const key = `${sort} ${handsAs ?? ''}`;
      const known = found.get(key) ?? { sort, modes: [], about: [], amount: undefined, later: undefined, isHandsOff: handsAs !== undefined };
      found.set(key, known);
      known.modes.push(handsAs === undefined ? mode : `${mode}, switched off`);
      for (const name of about) if (!known.about.includes(name)) known.about.push(name);
      // where no fuse opens in one of the modes, that is the worst of them
      known.later = known.later?.filter((fuse) => later.includes(fuse)) ?? later;
      if (amount !== undefined) known.amount = Math.max(known.amount ?? 0, amount);
    }
  }
  return [...found.values()].sort((a, b) => WEIGHT.indexOf(a.sort) - WEIGHT.indexOf(b.sort)).map(({ sort, modes: at, about, amount, later, isHandsOff }) => ({ sort, modes: at, text: effectWords({ sort, about, later: later ?? [], ...(amount === undefined ? {} : { amount }) }, isHandsOff, say) }));
}

/** What tells the driver, each once; then what could: inputs that change and that no condition asks for. */
export function tells({ modes, isNoticed }: SingleFailure): { readonly tells: readonly string[]; readonly seenAt: readonly string[] } {
  const by = new Map<Notice['by'], Set<string>>();
  for (const { notices } of modes) for (const { by: how, about } of notices) { const set = by.get(how) ?? new Set(); by.set(how, set); about.forEach((name) => set.add(name)); }
  const words = [...by].map(([how, about]) => noticeWords({ by: how, about: [...about] }));
  return { tells: words.length === 0 && isNoticed ? ['what hangs on the blown fuse'] : words, seenAt: words.length > 0 ? [] : [...new Set(modes.flatMap(({ seenAt }) => seenAt))] };
}

/** Modes in short: all of them, or their names. */
export function modesWords(at: readonly string[], all: readonly string[]): string {
  const plain = at.filter((mode) => all.includes(mode));
  const others = at.filter((mode) => !all.includes(mode));
  return [plain.length === all.length && all.length > 1 ? 'every mode' : plain.join(', '), ...others].filter((text) => text !== '').join(', ');
}
