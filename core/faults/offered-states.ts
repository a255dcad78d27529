/**
 * In which states the builder may measure: as asked for, the same with the pack parted, and everything off with the 12 V battery taken off.
 */
import type { Car } from '../car/car.ts';
import { openJointsOf } from '../car/open-joints.ts';
import type { AskedState } from './asked-state.ts';

export interface OfferedStates {
  readonly asked: AskedState;
  /** undefined for a car without a pack, or where no joint of a string can be named */
  readonly packOpen: AskedState | undefined;
  /** for the ohmmeter */
  readonly dead: AskedState;
}

export function offeredStates(car: Car, mode: string | undefined): OfferedStates {
  const open = [...new Set(openJointsOf(car))];
  const posts = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.lowVoltageBattery ? [names.of(roles.lowVoltageBattery.positive), names.of(roles.lowVoltageBattery.negative)] : [])));
  const batteryRuns = [...car.runs.values()].filter(({ from, to }) => posts.has(from) || posts.has(to)).map(({ name }) => name);
  return {
    asked: { mode, without: [] },
    packOpen: open.length > 0 ? { mode, without: open } : undefined,
    dead: { mode: undefined, without: [...open, ...batteryRuns] },
  };
}
