/** In which state the car stands for a step, in words: mode, where the disconnects are, what is left off. */
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { settingIn } from '../topics/modes/situation.ts';
import type { Plan } from './plan.ts';
import type { Phase } from './step.ts';

/** More runs than these are told by their number. */
const MOST_NAMED = 4;

/** `SD out`, `SD_A and SD_B in`; empty where there is no disconnect. */
export function disconnectWords(car: Car, state: State): string {
  const all = [...car.parts.values()].flatMap(({ name, roles, missing }) => (roles.disconnect && missing.length === 0 ? [{ name, isOut: settingIn(car, state, name, roles.disconnect.outSetting) === true }] : []));
  const named = (isOut: boolean, where: string): string[] => { const names = all.filter((one) => one.isOut === isOut).map(({ name }) => name); return names.length === 0 ? [] : [`${names.join(' and ')} ${where}`]; };
  return [...named(true, 'out'), ...named(false, 'in')].join(', ');
}

/** @returns undefined where the step asks nothing of the car */
export function standsWords({ car, highVoltageRuns }: Plan, state: State | undefined, phase: Phase): string | undefined {
  if (state === undefined) return undefined;
  const { mode, without = [] } = state;
  const off = new Set(without);
  if (highVoltageRuns.length > 0 && highVoltageRuns.every((name) => off.has(name))) return 'nothing of the high-voltage side joined, everything off';
  const disconnects = phase === 'insulation' ? '' : disconnectWords(car, state);
  return [mode === undefined ? 'everything off' : `mode ${mode}`, ...(disconnects === '' ? [] : [disconnects]), ...(without.length === 0 ? [] : [without.length > MOST_NAMED ? `${without.length} runs off` : `${without.join(' and ')} off`])].join('; ');
}

/** With every disconnect out. */
export function disconnectsOut(car: Car): NonNullable<State['set']> {
  return Object.fromEntries([...car.parts.values()].flatMap(({ name, roles }) => (roles.disconnect ? [[name, { [roles.disconnect.outSetting]: true }]] : [])));
}
