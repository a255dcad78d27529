/** The steps of a procedure with how far they are by readings.csv, kept up with the file and the build; and better numbers from all that was read. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Guided, Judged, Questions } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { logFile } from './log-file.ts';

export type GuideAnswer = Questions['guide']['answer'];
export type Proposals = Questions['proposals']['answer'];

export interface Guide {
  readonly procedure: Guided;
  /** undefined while the steps are worked out */
  readonly now: GuideAnswer | undefined;
  /** undefined while they are worked out; of the newest text */
  readonly proposals: Proposals | undefined;
  /** why the log or the steps cannot be had */
  readonly trouble: string | undefined;
  readonly judge: (step: string, reading: string, isObservation: boolean, hasMeanings: boolean) => Promise<Judged>;
  /** @returns undefined when it is kept, else why it is not; then the same cells may be given again */
  readonly add: (cells: Readonly<Record<string, string>>) => Promise<string | undefined>;
}

export function useGuide(procedure: Guided): Guide {
  const { askAside } = useActs();
  const text = useBench('text');
  const [log, setLog] = useState<string>();
  const [now, setNow] = useState<GuideAnswer>();
  const [proposals, setProposals] = useState<{ readonly of: string; readonly text: string; readonly found: Proposals }>();
  const [trouble, setTrouble] = useState<string>();
  const newest = useRef(0);

  const load = useCallback(async () => {
    const answer = await logFile.get();
    if (answer.ok) { setLog(answer.text); setTrouble(undefined); } else setTrouble(`The readings cannot be had: ${answer.why}.`);
  }, []);
  useEffect(() => logFile.follow(() => void load()), [load]);

  const work = useCallback(async (of: string): Promise<void> => {
    const number = ++newest.current;
    try {
      const answer = await askAside('guide', { text, log: of, procedure });
      if (number !== newest.current) return;
      setNow(answer);
      // behind the steps, which nobody should wait for
      const found = of === '' ? [] : await askAside('proposals', { text, log: of });
      if (number === newest.current) setProposals({ of, text, found });
    } catch (error) {
      if (number === newest.current) setTrouble(error instanceof Error ? error.message : String(error));
    }
  }, [askAside, text, procedure]);
  useEffect(() => { if (log !== undefined) void work(log); }, [log, work]);

  const judge = useCallback((step: string, reading: string, isObservation: boolean, hasMeanings: boolean) => askAside('judge', { text, log: log ?? '', procedure, step, reading, isObservation, hasMeanings }), [askAside, text, log, procedure]);
  const add = useCallback(async (cells: Readonly<Record<string, string>>) => {
    const answer = await logFile.add(cells);
    if (!answer.ok) return answer.why;
    const after = await logFile.get();
    if (after.ok) setLog(after.text);
    return undefined;
  }, []);
  return { procedure, now: now?.procedure === procedure ? now : undefined, proposals: proposals?.text === text ? proposals.found : undefined, trouble, judge, add };
}
