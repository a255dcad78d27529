/** Numbers that an edit has changed and that were not looked at yet, on every sheet. */
import { useCallback, useMemo, useRef, useState } from 'react';
import type { SheetName } from '../../sheets/sheet.ts';
import { shownTexts, withChanges, withoutMarks } from '../viewer/changed-keys.ts';
import type { Marks } from '../viewer/changed-keys.ts';
import type { Studied } from './use-studies.ts';

export interface ChangedNumbers {
  readonly changed: ReadonlySet<string>;
  readonly lookedAt: (keys?: readonly string[]) => void;
  readonly seen: (studied: Studied) => void;
  /** how many marked numbers stand on a sheet; another function when another number may be right */
  readonly countOn: (sheet: SheetName) => number;
}

type Texts = ReadonlyMap<string, string>;
interface Last { readonly studied: Studied; readonly texts: Texts }

export function useMarks(): ChangedNumbers {
  const last = useRef(new Map<SheetName, Last>());
  const [marks, setMarks] = useState<Marks>(new Map());
  const [shown, setShown] = useState<ReadonlyMap<SheetName, Texts>>(new Map());
  const seen = useCallback((studied: Studied) => {
    const { name, model } = studied.study.sheet;
    const before = last.current.get(name);
    if (before && before.studied.study.sheet.model === model) { last.current.set(name, { studied, texts: before.texts }); return; }
    const texts = shownTexts(model);
    last.current.set(name, { studied, texts });
    setShown((now) => new Map(now).set(name, texts));
    // other units or another state change every number, and no edit did
    if (before && before.studied.choices === studied.choices && before.studied.text !== studied.text) setMarks((now) => withChanges(now, before.texts, texts));
  }, []);
  const lookedAt = useCallback((keys?: readonly string[]) => setMarks((now) => (keys ? withoutMarks(now, keys) : new Map())), []);
  const countOn = useCallback((sheet: SheetName) => {
    const texts = shown.get(sheet);
    return texts ? [...marks.keys()].filter((key) => texts.has(key)).length : 0;
  }, [marks, shown]);
  const changed = useMemo(() => new Set(marks.keys()), [marks]);
  return { changed, lookedAt, seen, countOn };
}
