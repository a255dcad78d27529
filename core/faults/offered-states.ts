/**
 * In which states the builder may measure: as asked for, the same with the pack parted, and everything off with the 12 V battery taken off.
 *
 * A pack is parted by its service disconnects where each string has one. A bolted joint is live work: it comes last.
 */
import type { Car } from '../car/car.ts';
import { metalOf } from '../car/metal-graph.ts';
import { openJointsOf } from '../car/open-joints.ts';
import { stringsOf } from '../car/strings.ts';
import { coilContacts } from '../topics/modes/mode-graph.ts';
import type { Held } from '../topics/modes/mode-graph.ts';
import type { AskedState } from './asked-state.ts';

export interface OfferedStates {
  readonly asked: AskedState;
  /** the mode asked for with the service disconnects out; undefined where some string has none. The interlock loop is open with them, where they have a contact of it. */
  readonly disconnected: AskedState | undefined;
  /** the mode asked for with a bolted joint of each string off, and the loop closed; undefined for a car without a pack, or where no joint of a string can be named */
  readonly packOpen: AskedState | undefined;
  /** for the ohmmeter */
  readonly dead: AskedState;
  /** parts that are pulled in `disconnected` */
  readonly disconnects: readonly string[];
  /** a bolted joint shows what nothing else does: there is no disconnect, or the interlock loop opens with it */
  readonly isJointLast: boolean;
  /** pulled, they open the interlock loop */
  readonly opensLoop: boolean;
}

export function offeredStates(car: Car, mode: string | undefined): OfferedStates {
  const open = [...new Set(openJointsOf(car))];
  const disconnects = disconnectsOf(car);
  const set: Held | undefined = disconnects.length > 0 ? Object.fromEntries(disconnects.map((name) => [name, { [car.parts.get(name)!.roles.disconnect!.outSetting]: true }])) : undefined;
  const posts = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.lowVoltageBattery ? [names.of(roles.lowVoltageBattery.positive), names.of(roles.lowVoltageBattery.negative)] : [])));
  const batteryRuns = [...car.runs.values()].filter(({ from, to }) => posts.has(from) || posts.has(to)).map(({ name }) => name);
  const opensLoop = disconnects.some((name) => car.parts.get(name)!.roles.disconnect!.hasInterlock);
  return {
    asked: { mode, without: [] },
    disconnected: set && { mode, without: [], set },
    packOpen: open.length > 0 ? { mode, without: open } : undefined,
    // with nothing that parts it by itself when everything is off, the pack would stay on
    dead: { mode: undefined, without: [...(!set && coilContacts(car).length === 0 ? open : []), ...batteryRuns], ...(set ? { set } : {}) },
    disconnects, isJointLast: open.length > 0 && (!set || opensLoop), opensLoop,
  };
}

/** A service disconnect of each string, between its modules or behind one of its ends; none where some string has none: pulling the others would leave voltage. */
function disconnectsOf(car: Car): readonly string[] {
  const { netOf } = metalOf(car);
  const all = [...car.parts.values()].flatMap(({ name, names, roles, missing }) => (roles.disconnect && missing.length === 0 ? [{ name, net: netOf(names.of(roles.disconnect.a)) }] : []));
  const found = stringsOf(car).packs.flatMap((pack) => pack.strings).map(({ between, positive, negative }) => {
    const inside = new Set(between.flatMap(({ through }) => through));
    return (all.find(({ name }) => inside.has(name)) ?? all.find(({ net }) => net === netOf(positive) || net === netOf(negative)))?.name;
  });
  return found.every((name) => name !== undefined) ? [...new Set(found as readonly string[])] : [];
}
