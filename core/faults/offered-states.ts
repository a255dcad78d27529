/**
 * In which states the builder may measure: as asked for, the same with the pack parted, and everything off with the 12 V battery taken off.
 */
import type { Car } from '../car/car.ts';
import { stringsOf } from '../car/strings.ts';
import type { AskedState } from './asked-state.ts';

export interface OfferedStates {
  readonly asked: AskedState;
  /** undefined for a car without a pack, or where no joint of a string can be named */
  readonly packOpen: AskedState | undefined;
  /** for the ohmmeter */
  readonly dead: AskedState;
}

export function offeredStates(car: Car, mode: string | undefined): OfferedStates {
  const open = openRuns(car);
  const posts = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.lowVoltageBattery ? [names.of(roles.lowVoltageBattery.positive), names.of(roles.lowVoltageBattery.negative)] : [])));
  const batteryRuns = [...car.runs.values()].filter(({ from, to }) => posts.has(from) || posts.has(to)).map(({ name }) => name);
  return {
    asked: { mode, without: [] },
    packOpen: open.length > 0 ? { mode, without: open } : undefined,
    dead: { mode: undefined, without: [...open, ...batteryRuns] },
  };
}

/** A joint of each string, beside its disconnect where it has one: the disconnect itself then goes in again for its interlock contact. */
export function openRuns(car: Car): readonly string[] {
  const disconnects = new Set([...car.parts.values()].filter(({ roles }) => roles.disconnect).map(({ name }) => name));
  const isRun = (name: string): boolean => car.runs.get(name)?.carries === 'high_voltage';
  const runs = stringsOf(car).packs.flatMap(({ strings }) => strings).flatMap(({ between, positive }) => {
    const through = between.flatMap((piece) => piece.through);
    const beside = through.findIndex((name) => disconnects.has(name));
    const found = (beside < 0 ? undefined : [through[beside + 1], through[beside - 1]].find((name) => name !== undefined && isRun(name)))
      ?? through.find(isRun)
      ?? [...car.runs.values()].find(({ name, from, to }) => isRun(name) && (from === positive || to === positive))?.name;
    return found === undefined ? [] : [found];
  });
  return [...new Set(runs)];
}
