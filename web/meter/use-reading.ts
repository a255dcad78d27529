/** The reading between two points: at once at the nominal values, then with a band that a few draws at a time make surer. */
import { useEffect, useState } from 'react';
import type { MeterReading } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';

/** The band is shown first after so many draws, and is done after so many. */
export const QUICK = 60;
export const ALL = 200;
const HANDFUL = 10;

export interface Reading extends MeterReading { readonly isDone: boolean }

/** @returns undefined until both points are named and the first answer is there */
export function useReading(red: string | undefined, black: string | undefined): Reading | undefined {
  const { ask } = useActs();
  const text = useBench('text');
  const { state } = useBench('choices');
  const [reading, setReading] = useState<Reading>();
  useEffect(() => {
    setReading(undefined);
    if (red === undefined || black === undefined) return undefined;
    let isOver = false;
    const read = async (): Promise<void> => {
      const first = await ask('meter', { text, state, a: red, b: black, draws: 0, seed: 1 });
      if (isOver) return;
      setReading({ ...first, isDone: first.outcome !== 'reads' });
      const drawn: number[] = [];
      for (let seed = 1; first.outcome === 'reads' && seed <= ALL / HANDFUL; seed++) {
        const more = await ask('meter', { text, state, a: red, b: black, draws: HANDFUL, seed });
        if (isOver) return;
        drawn.push(...more.drawn);
        if (seed * HANDFUL === QUICK || seed * HANDFUL === ALL) setReading({ ...first, drawn: [...drawn], isDone: seed * HANDFUL === ALL });
      }
    };
    read().catch(() => undefined);
    return () => { isOver = true; };
  }, [ask, text, state, red, black]);
  return reading;
}
