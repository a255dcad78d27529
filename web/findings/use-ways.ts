/** Ways from a finding to drawing, text and card. They stay the same from drawing to drawing, so that rows need not be drawn again. */
import { useMemo } from 'react';
import { useActs } from '../bench.ts';
import type { FindingWays } from './finding-item.tsx';
import { sheetOfFinding } from './sheet-of-finding.ts';

export function useWays(): FindingWays {
  const acts = useActs();
  return useMemo(() => ({
    toDrawing: (row) => {
      acts.show(sheetOfFinding(row));
      if (row.path !== '') acts.select(row.path);
    },
    toText: (row) => acts.openText(row.place ? { offset: row.place.offset } : { path: row.path }),
    toCard: (path) => acts.select(path),
  }), [acts]);
}
