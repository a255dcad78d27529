/**
 * Where the builder could write a value of his own in place of one from the handbook.
 */
import type { Build, FieldValue, FieldValues } from './build.ts';
import { isQuantity } from './plain-values.ts';

/**
 * @param path  of a handbook value, `handbook:coil.release_time`
 * @returns paths of the file that take it now, in the order of the file: `parts.K1.release_time`
 */
export function handbookUsers(build: Build, path: string): string[] {
  const found: string[] = [];
  const look = (values: FieldValues, at: string): void => {
    for (const [name, value] of Object.entries(values)) lookAt(value, `${at}.${name}`);
  };
  const lookAt = (value: FieldValue, at: string): void => {
    if (typeof value !== 'object') return;
    if (isQuantity(value)) { if (value.path === path) found.push(at); }
    else if (Array.isArray(value)) value.forEach((item: FieldValue, index) => lookAt(item, `${at}.${index}`));
    else look(value as FieldValues, at);
  };
  look(build.conditions, 'conditions');
  for (const cell of build.cells.values()) look(cell.fields, `cells.${cell.name}`);
  for (const part of build.parts.values()) look(part.fields, `parts.${part.name}`);
  for (const run of build.runs.values()) look(run.fields, `runs.${run.name}`);
  return found;
}
