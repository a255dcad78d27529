/** Ways from a finding to drawing, text and card. They stay the same from drawing to drawing, so that rows need not be drawn again. */
import { useMemo, useRef } from 'react';
import { useBench } from '../bench.ts';
import type { FindingWays } from './finding-item.tsx';
import { sheetOfFinding } from './sheet-of-finding.ts';

export function useWays(): FindingWays {
  const bench = useBench();
  const now = useRef(bench);
  now.current = bench;
  return useMemo(() => ({
    toDrawing: (row) => {
      now.current.show(sheetOfFinding(row));
      if (row.path !== '') now.current.select(row.path);
    },
    toText: (row) => now.current.openText(row.place ? { offset: row.place.offset } : { path: row.path }),
    toCard: (path) => now.current.select(path),
  }), []);
}
