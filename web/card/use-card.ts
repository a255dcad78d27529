/** The card of a path of the text as it stands; the one before is kept while the next is made. */
import { useEffect, useState } from 'react';
import type { Card } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { keepEqual } from '../desk/keep-equal.ts';

/** @returns card: undefined before the first answer, null when the build has no such thing; answers: how many have come */
export function useCard(path: string | undefined): { readonly card: Card | null | undefined; readonly answers: number } {
  const { ask } = useActs();
  const text = useBench('text');
  const { units } = useBench('choices');
  const [known, setKnown] = useState<{ readonly card: Card | null | undefined; readonly answers: number }>({ card: undefined, answers: 0 });
  useEffect(() => {
    if (path === undefined) return undefined;
    let isOver = false;
    ask('card', { text, path, units }).then((answer) => { if (!isOver) setKnown((now) => ({ card: keepEqual(now.card, answer ?? null), answers: now.answers + 1 })); }, () => undefined);
    return () => { isOver = true; };
  }, [text, path, units, ask]);
  return known;
}
