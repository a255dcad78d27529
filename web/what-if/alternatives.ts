/** The alternatives on the tray: remembered while the page is open, whatever happens to the file meanwhile. */
import { useSyncExternalStore } from 'react';
import type { Edit } from '../../core/build/edit-build.ts';

export interface Change { readonly path: string; /** as it stood in the file when it was put on the tray */ readonly before: string; readonly to: string }
export interface Alternative { readonly id: number; readonly changes: readonly Change[] }

let alternatives: readonly Alternative[] = [];
let number = 0;
const listeners = new Set<() => void>();

function put(next: readonly Alternative[]): void {
  alternatives = next;
  for (const hear of listeners) hear();
}

export function useAlternatives(): readonly Alternative[] {
  return useSyncExternalStore((hear) => { listeners.add(hear); return () => listeners.delete(hear); }, () => alternatives);
}

/** A new alternative that changes one value; at first to what stands there. */
export function askWhatIf(path: string, before: string): void {
  put([...alternatives, { id: ++number, changes: [{ path, before, to: before }] }]);
}
/** One more value in an alternative that is there. */
export function addChange(id: number, path: string, before: string): void {
  put(alternatives.map((each) => (each.id === id && !each.changes.some((change) => change.path === path) ? { ...each, changes: [...each.changes, { path, before, to: before }] } : each)));
}
export function setChange(id: number, path: string, to: string): void {
  put(alternatives.map((each) => (each.id === id ? { ...each, changes: each.changes.map((change) => (change.path === path ? { ...change, to } : change)) } : each)));
}
export function dropChange(id: number, path: string): void {
  put(alternatives.map((each) => (each.id === id ? { ...each, changes: each.changes.filter((change) => change.path !== path) } : each)).filter(({ changes }) => changes.length > 0));
}
export function dropAlternative(id: number): void {
  put(alternatives.filter((each) => each.id !== id));
}

/** Values that differ from what the file had; an empty one takes the value out. */
export function editsOf({ changes }: Pick<Alternative, 'changes'>): readonly Edit[] {
  return changes.filter(({ before, to }) => before.trim() !== to.trim()).map(({ path, to }) => (to.trim() === '' ? { do: 'remove', path } : { do: 'set', path, to: to.trim() }));
}
