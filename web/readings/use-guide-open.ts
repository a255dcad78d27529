/** Which guided procedure lies on the desk; kept in the address after #, so that reloading stays and going back leaves. */
import { useCallback, useEffect, useState } from 'react';
import type { Guided } from '../analysis/protocol.ts';

/** The steps of a procedure, or better numbers from their readings. */
export type GuideView = Guided | 'numbers';
const hashes: Readonly<Record<GuideView, string>> = { assembly: '#assembly-steps', 'power-up': '#first-power-up', numbers: '#better-numbers' };
const inAddress = (): GuideView | undefined => (Object.keys(hashes) as GuideView[]).find((view) => hashes[view] === location.hash);

/** @param back  what the address says of the desk itself */
export function useGuideOpen(back: string): { /** undefined: none */ readonly shows: GuideView | undefined; readonly open: (view: GuideView) => void; readonly leave: () => void } {
  const [shows, setShows] = useState(inAddress);
  useEffect(() => {
    const hear = (): void => setShows(inAddress());
    addEventListener('popstate', hear);
    return () => removeEventListener('popstate', hear);
  }, []);
  const open = useCallback((view: GuideView) => { history.pushState(null, '', hashes[view]); setShows(view); }, []);
  const leave = useCallback(() => { history.pushState(null, '', `#${back}`); setShows(undefined); }, [back]);
  return { shows, open, leave };
}
