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
  /** how many marked numbers stand on a sheet */
  readonly countOn: (sheet: SheetName) => number;
}

interface Last { readonly studied: Studied; readonly texts: ReadonlyMap<string, string> }

export function useMarks(): ChangedNumbers {
  const last = useRef(new Map<SheetName, Last>());
  const [marks, setMarks] = useState<Marks>(new Map());
  const seen = useCallback((studied: Studied) => {
    const { name, model } = studied.study.sheet;
    const before = last.current.get(name);
    const texts = shownTexts(model);
    last.current.set(name, { studied, texts });
    // other units or another state change every number, and no edit did
    if (before && before.studied.choices === studied.choices && before.studied.text !== studied.text) setMarks((now) => withChanges(now, before.texts, texts));
  }, []);
  const lookedAt = useCallback((keys?: readonly string[]) => setMarks((now) => (keys ? withoutMarks(now, keys) : new Map())), []);
  const countOn = useCallback((sheet: SheetName) => {
    const texts = last.current.get(sheet)?.texts;
    return texts ? [...marks.keys()].filter((key) => texts.has(key)).length : 0;
  }, [marks]);
  const changed = useMemo(() => new Set(marks.keys()), [marks]);
  return useMemo(() => ({ changed, lookedAt, seen, countOn }), [changed, lookedAt, seen, countOn]);
}
