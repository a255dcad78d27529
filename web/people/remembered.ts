/** What a person has chosen, remembered in this browser. A browser that keeps nothing is no error: the choice lasts as long as the page. */
import { useCallback, useState } from 'react';

const keyOf = (name: string): string => `halfshaft.${name}`;

/** @param read  gives the value back, or undefined for what is not one (another version wrote it) */
export function remembered<T>(name: string, read: (value: unknown) => T | undefined): T | undefined {
  try {
    const kept = localStorage.getItem(keyOf(name));
    return kept === null ? undefined : read(JSON.parse(kept));
  } catch {
    return undefined;
  }
}

export function remember(name: string, value: unknown): void {
  try {
    if (value === undefined) localStorage.removeItem(keyOf(name));
    else localStorage.setItem(keyOf(name), JSON.stringify(value));
  } catch { /* it lasts as long as the page */ }
}

export function useRemembered<T>(name: string, read: (value: unknown) => T | undefined): [T | undefined, (value: T | undefined) => void] {
  const [value, setValue] = useState(() => remembered(name, read));
  const choose = useCallback((next: T | undefined) => { remember(name, next); setValue(next); }, [name]);
  return [value, choose];
}
