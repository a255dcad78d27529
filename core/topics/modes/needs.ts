/** Whether modes can be reached, and whether what they need can ever be true where they are entered from. */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { State } from '../../car/state.ts';
import type { BuildMode } from '../../build/build.ts';
import type { Condition } from '../../condition/condition.ts';
import { isTrue } from '../../condition/evaluate.ts';
import { partsOf } from '../../condition/expression.ts';
import type { Check } from '../../findings/finding.ts';
import { closedContacts, enteringState, merged, startModes, waysOf } from './mode-graph.ts';
import { settingIn, situationIn } from './situation.ts';

export function needChecks(car: Car, ask: Network): readonly Check[] {
  const modes = [...car.build.modes.values()];
  const starts = startModes(car);
  const followed = new Set(starts);
  for (let grew = true; grew;) {
    grew = false;
    for (const { name, from } of modes) if (!followed.has(name) && from.some((one) => followed.has(one))) { followed.add(name); grew = true; }
  }
  return modes.flatMap((mode) => [
    ...(mode.from.length === 0 ? [] : [{ code: 'modes.mode-reachable', about: [mode.name], value: followed.has(mode.name) ? 1 : 0, limit: 1, sense: 'is_true', details: { from: mode.from.join(' or '), starts: starts.join(' or ') } } satisfies Check]),
    ...mode.needs.map((need) => needCheck(car, ask, mode, need)),
    ...contactCheck(car, ask, mode),
  ]);
}

function needCheck(car: Car, ask: Network, mode: BuildMode, need: Condition): Check {
  const from = mode.from.length > 0 ? mode.from : [mode.name];
  const holds = from.map((one) => canHold(car, ask, one, mode.name, need));
  const isPossible = holds.includes(true) ? true : holds.includes(undefined) ? undefined : false;
  return {
    code: 'modes.need-possible', about: [mode.name], variant: need.text, path: need.path, value: isPossible === true ? 1 : 0, limit: 1, sense: 'is_true',
    ...(isPossible === undefined ? { needs: missingFor(car, need) } : {}), details: { from: from.join(' or '), values: valuesIn(car, ask, enteringState(car, from[0]!, mode.name), need) },
  };
}

/** First as the file says that hands stand, then in every other way that the need speaks of. */
function canHold(car: Car, ask: Network, from: string, to: string, need: Condition): boolean | undefined {
  const entering = enteringState(car, from, to);
  const first = isTrue(need.expression, situationIn(car, ask, entering));
  if (first === true) return true;
  let hasUnknown = first === undefined;
  for (const set of waysOf(car, [need])) {
    const state: State = { ...entering, set: merged(entering.set, set) };
    const holds = isTrue(need.expression, situationIn(car, ask, state));
    if (holds === true) return true;
    hasUnknown ||= holds === undefined;
  }
  return hasUnknown ? undefined : false;
}

function missingFor(car: Car, need: Condition): readonly string[] {
  const names = new Set<string>();
  for (const one of partsOf(need.expression)) {
    if (one.form === 'name') names.add(one.name);
    if (one.form === 'literal' && typeof one.value === 'string') names.add(one.value.split('.')[0]!);
  }
  const missing = [...names].flatMap((name) => car.parts.get(name)?.missing ?? []);
  return missing.length > 0 ? missing : [need.path];
}

/** What the things that a need compares are: `V('K1.out') 0.2 V, BRAKE.closed no`. */
export function valuesIn(car: Car, ask: Network, state: State, need: Condition): string {
  const situation = situationIn(car, ask, state);
  const said: string[] = [];
  for (const one of partsOf(need.expression)) {
    if (one.form === 'call' && (one.name === 'V' || one.name === 'I')) {
      const [a = '', b] = one.arguments.map((argument) => (argument.form === 'literal' ? String(argument.value) : ''));
      const value = one.name === 'V' ? situation.voltage(a, b ?? 'chassis') : situation.current(a);
      said.push(`${b === undefined ? a : `${a} to ${b}`} ${value === undefined ? 'is not known' : `${Number(value.toPrecision(3))} ${one.name === 'V' ? 'V' : 'A'}`}`);
    }
    if (one.form === 'field' && one.of.form === 'name') said.push(`${one.of.name}.${one.name} is ${settingInWords(settingIn(car, state, one.of.name, one.name))}`);
    if (one.form === 'name' && one.name === 'interlock_closed') said.push(`the interlock loop is ${situation.variable(one.name) === true ? 'closed' : 'open'}`);
  }
  return [...new Set(said)].join(', ');
}

export function settingInWords(value: boolean | number | string | readonly string[] | undefined): string {
  if (value === undefined) return 'not set';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' || typeof value === 'string' ? String(value) : value.length > 0 ? value.join(', ') : 'empty';
}

/** A mode that closes a high-voltage contact asks for something first. */
function contactCheck(car: Car, ask: Network, mode: BuildMode): readonly Check[] {
  const closed = closedContacts(car, ask, { mode: mode.name });
  if (closed === undefined || closed.length === 0 || mode.from.length === 0) return [];
  const before = mode.from.map((from) => closedContacts(car, ask, { mode: from }));
  const newly = closed.filter((part) => before.some((others) => others !== undefined && !others.includes(part)));
  if (newly.length === 0) return [];
  const asked = mode.needs.length + mode.needsInWords.length;
  return [{ code: 'modes.contact-has-need', about: [mode.name, ...newly], value: asked, limit: 1, sense: 'at_least', quantity: 'number', details: { contacts: newly.join(', ') } }];
}
