/**
 * What the desk holds for fault finding: whether the conversation lies on the bench, which one it is, readings.csv while anybody needs it, and the
 * points that are to be looked at next. Open and chosen outlast a reload; all that was said stands in readings.csv.
 */
import { useCallback, useEffect, useMemo, useState } from 'react';
import { logFile } from '../readings/log-file.ts';

/** What the drawing lights up: the probes, red first, and parts. */
export interface Pointed {
  readonly points: readonly string[];
  /** paths */
  readonly subjects: readonly string[];
  /** grows each time somebody asks to be shown the place: the drawing turns to its page */
  readonly asked: number;
}

export interface FaultDesk {
  readonly isOpen: boolean;
  readonly setOpen: (isOpen: boolean) => void;
  /** of the conversation; '': a new one, of which nothing is kept yet; undefined: the open one that was spoken of last */
  readonly name: string | undefined;
  readonly setName: (name: string | undefined) => void;
  /** text of readings.csv; undefined while it is not there yet */
  readonly log: string | undefined;
  /** why the log cannot be had; a sentence */
  readonly trouble: string | undefined;
  /** @returns undefined when it is kept, else why it is not; then the same cells may be given again */
  readonly add: (cells: Readonly<Record<string, string>>) => Promise<string | undefined>;
  readonly pointAt: (pointed: Pointed | undefined) => void;
}

const OPEN = 'halfshaft.fault-open', NAME = 'halfshaft.fault-name';

/** @param isLogNeeded  besides the conversation, by a sheet that lies on the desk */
export function useFaultDesk(isLogNeeded: boolean): { readonly fault: FaultDesk; readonly pointed: Pointed | undefined } {
  const [isOpen, setOpen] = useState(() => kept(OPEN) === 'yes');
  const [name, setName] = useState(() => kept(NAME));
  const [log, setLog] = useState<string>();
  const [trouble, setTrouble] = useState<string>();
  const [pointed, pointAt] = useState<Pointed>();
  useEffect(() => keep(OPEN, isOpen ? 'yes' : undefined), [isOpen]);
  useEffect(() => keep(NAME, name), [name]);

  const load = useCallback(async () => {
    const answer = await logFile.get();
    if (answer.ok) {
      setLog(answer.text);
      setTrouble(undefined);
    } else {
      setTrouble(`readings.csv cannot be had: ${answer.why}.`);
      setLog((now) => now ?? '');
    }
  }, []);
  const isNeeded = isOpen || isLogNeeded;
  useEffect(() => (isNeeded ? logFile.follow(() => void load()) : undefined), [isNeeded, load]);
  const add = useCallback(async (cells: Readonly<Record<string, string>>) => {
    const answer = await logFile.add(cells);
    if (!answer.ok) return answer.why;
    // the file is read again all the same, since it has changed; others may have written too
    setLog((now) => (now === undefined || now.includes(answer.added) ? now : now + answer.added));
    return undefined;
  }, []);
  const fault = useMemo(() => ({ isOpen, setOpen, name, setName, log, trouble, add, pointAt }), [isOpen, name, log, trouble, add]);
  return { fault, pointed };
}

/** For this window only; a browser may keep nothing. */
function kept(key: string): string | undefined {
  try { return sessionStorage.getItem(key) ?? undefined; } catch { return undefined; }
}
function keep(key: string, value: string | undefined): void {
  try { if (value === undefined) sessionStorage.removeItem(key); else sessionStorage.setItem(key, value); } catch { /* then it is forgotten */ }
}
