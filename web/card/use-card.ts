/** The card of a path of the text as it stands; the one before is kept while the next is made. */
import { useEffect, useState } from 'react';
import type { Card } from '../analysis/protocol.ts';
import { useBench } from '../bench.ts';

/** @returns undefined before the first answer, null when the build has no such thing */
export function useCard(path: string | undefined): Card | null | undefined {
  const { text, ask, choices } = useBench();
  const [card, setCard] = useState<Card | null>();
  useEffect(() => {
    if (path === undefined) return undefined;
    let isOver = false;
    ask('card', { text, path, units: choices.units }).then((answer) => { if (!isOver) setCard(answer ?? null); }, () => undefined);
    return () => { isOver = true; };
  }, [text, path, choices.units, ask]);
  return card;
}
