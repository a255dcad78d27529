/** Where a pack is left open: one high-voltage run of each string, so that no voltage stands across the string's ends. */
import type { Car } from './car.ts';
import { remembered } from './remembered.ts';
import { stringsOf } from './strings.ts';
import type { PackString } from './strings.ts';

/** Runs, in the order of the strings; a run that two strings share stands once for each. A string in which no run can be named has none. */
export const openJointsOf = remembered(function openJoints(car: Car): readonly string[] {
  const disconnects = new Set([...car.parts.values()].filter(({ roles }) => roles.disconnect).map(({ name }) => name));
  return stringsOf(car).packs.flatMap(({ strings }) => strings).flatMap((string) => openJoint(car, string, disconnects) ?? []);
});

/** A run of the string that meets a disconnect, else one between two modules, else one at its end. */
function openJoint(car: Car, { between, positive }: PackString, disconnects: ReadonlySet<string>): string | undefined {
  const isRun = (name: string): boolean => car.runs.get(name)?.carries === 'high_voltage';
  for (const { through } of between) {
    const at = through.findIndex((name) => disconnects.has(name));
    const beside = at < 0 ? undefined : [through[at + 1], through[at - 1]].find((name) => name !== undefined && isRun(name));
    if (beside !== undefined) return beside;
  }
  return between.flatMap(({ through }) => through).find(isRun)
    ?? [...car.runs.values()].find(({ name, from, to }) => isRun(name) && (from === positive || to === positive))?.name;
}
