/** What each alternative would change, asked again whenever the text, the sheet or the alternative is another. */
import { useEffect, useRef, useState } from 'react';
import type { WhatIfRow } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { editsOf } from './alternatives.ts';
import type { Alternative } from './alternatives.ts';

/** from the last change to the question [ms] */
const QUIET = 300;

/** An outcome, and the alternative and text that it is of. */
export interface Outcome { readonly row: WhatIfRow; readonly isOld: boolean }

export function useOutcomes(alternatives: readonly Alternative[]): ReadonlyMap<number, Outcome> {
  const { ask } = useActs();
  const text = useBench('text'), sheet = useBench('sheet'), choices = useBench('choices');
  const [rows, setRows] = useState<ReadonlyMap<number, { readonly row: WhatIfRow; readonly about: About }>>(new Map());
  const asked = useRef(new Map<number, About>());
  useEffect(() => {
    const timer = setTimeout(() => {
      for (const alternative of alternatives) {
        const about: About = [alternative, text, sheet, choices];
        const edits = editsOf(alternative);
        if (edits.length === 0 || isSame(asked.current.get(alternative.id), about)) continue;
        asked.current.set(alternative.id, about);
        // one at a time, so that an edit never waits for all of them
        ask('what_if', { text, alternatives: [{ edits }], sheet, choices }).then(([row]) => {
          if (row && asked.current.get(alternative.id) === about) setRows((now) => new Map(now).set(alternative.id, { row, about }));
        }, () => { asked.current.delete(alternative.id); });
      }
    }, QUIET);
    return () => clearTimeout(timer);
  }, [alternatives, text, sheet, choices, ask]);
  return new Map([...rows].map(([id, { row, about }]) => [id, { row, isOld: !isSame(about, [alternatives.find((each) => each.id === id), text, sheet, choices]) }]));
}

type About = readonly [Alternative | undefined, string, string, unknown];

function isSame(a: About | undefined, b: About): boolean {
  return a !== undefined && a.every((each, index) => each === b[index]);
}
