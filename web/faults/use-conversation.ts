/** A fault-finding conversation: what was said stands in readings.csv, what it means is asked of the worker. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { FaultAnswer } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { endCells, takenBackCells } from '../../core/readings/fault-marks.ts';
import type { FaultCells } from '../../core/readings/fault-marks.ts';
import { remembered } from '../people/remembered.ts';
import { newLineId } from '../readings/log-file.ts';

type Cells = Readonly<Record<string, string>>;
type Said = { readonly is: 'symptom' | 'seen'; readonly text: string };

export interface Conversation {
  /** undefined until the first answer; while `isAsking` that of a moment ago */
  readonly answer: FaultAnswer | undefined;
  readonly isAsking: boolean;
  readonly failure: string | undefined;
  /** said, and not worked in yet: symptom by name -> whether it is so */
  readonly pending: ReadonlyMap<string, boolean>;
  /** what was refused last; a sentence */
  readonly refusal: string | undefined;
  /** lines that the file has not taken yet */
  readonly unkept: { readonly count: number; readonly why: string; readonly again: () => void } | undefined;
  readonly isBusy: boolean;
  /** @returns whether it was taken */
  readonly say: (said: Said) => Promise<boolean>;
  readonly takeBack: (id: string, symptom: string | undefined) => void;
  readonly end: (note: string) => void;
  /** '' begins a new one */
  readonly choose: (name: string) => void;
  readonly beginIn: (mode: string) => void;
}

const nobody = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
/** As the columns of the file hold them. */
const written = ({ points, ...cells }: FaultCells): Cells => ({ ...cells, points: points.join(' ') });
const none: ReadonlyMap<string, boolean> = new Map();

export function useConversation(): Conversation {
  const { ask, askAside, now: onBench } = useActs();
  const text = useBench('text');
  const { log, name, setName, add } = useBench('fault');
  const [mode, setMode] = useState<string>();
  const [known, setKnown] = useState<{ readonly of: string; readonly answer: FaultAnswer }>();
  const [failure, setFailure] = useState<string>();
  const [pending, setPending] = useState(none);
  const [refusal, setRefusal] = useState<string>();
  const [unkept, setUnkept] = useState<readonly { readonly cells: Cells; readonly why: string }[]>([]);
  const [isBusy, setBusy] = useState(false);
  const queue = useRef(Promise.resolve(true));
  const waiting = useRef(0);
  const isThere = useRef(false), isRanked = useRef(false), isReady = useRef(false);
  const asked = JSON.stringify([text, log, name, mode]);
  useEffect(() => {
    if (log === undefined) return undefined;
    let isOver = false;
    setFailure(undefined);
    // what was said stands there at once: the worker of the findings knows the build already, the patient one has yet to read it
    if (!isThere.current) ask('fault', { text, log, name, mode, upTo: 'said' }).then((brief) => { if (!isOver) setKnown((now) => now ?? { of: '', answer: brief }); }, () => undefined);
    isThere.current = true;
    // at first the causes are there long before the next test
    if (!isRanked.current) askAside('fault', { text, log, name, mode, upTo: 'causes' }).then((causes) => { if (!isOver && causes.path.length > 0) setKnown((now) => (now?.of === asked ? now : { of: '', answer: causes })); }, () => undefined);
    askAside('fault', { text, log, name, mode }).then((answer) => { isRanked.current = answer.path.length > 0; if (!isOver) { setKnown({ of: asked, answer }); setPending(none); } }, (error: unknown) => { if (!isOver) setFailure(error instanceof Error ? error.message : String(error)); });
    return () => { isOver = true; };
  }, [text, log, name, mode, ask, askAside, asked]);
  const answer = known?.answer;
  const isCurrent = known?.of === asked, aheadIn = answer?.mode, isOpen = answer !== undefined && answer.end === undefined;
  useEffect(() => {
    if (!isCurrent || !isOpen) return undefined;
    let isOver = false;
    // while the builder reads, the first ranking is worked out in pieces
    isReady.current = false;
    const ahead = async (): Promise<void> => {
      while (!isOver && !isReady.current) isReady.current = !(await askAside('fault_ahead', { text, mode: aheadIn })).isMore;
    };
    // whatever goes wrong is told when it is asked for
    ahead().catch(() => undefined);
    return () => { isOver = true; };
  }, [text, askAside, aheadIn, isCurrent, isOpen]);

  const keep = useCallback(async (cells: Cells): Promise<void> => {
    const why = await add(cells);
    setUnkept((now) => [...now.filter((one) => one.cells !== cells), ...(why === undefined ? [] : [{ cells, why }])]);
    if (why === undefined) setName(cells['step']);
    else setPending(none);
  }, [add, setName]);
  /** One after the other: the next line may rest on the one before. */
  const inTurn = (does: () => Promise<boolean>): Promise<boolean> => {
    waiting.current++;
    setBusy(true);
    const turn = queue.current.then(async () => {
      setRefusal(undefined);
      try {
        return await does();
      } catch (error) {
        setRefusal(error instanceof Error ? error.message : String(error));
        return false;
      } finally {
        waiting.current--;
        setBusy(waiting.current > 0);
      }
    });
    queue.current = turn;
    return turn;
  };
  const whole = (cells: Cells): Cells => ({ ...cells, id: newLineId(), who: remembered('who', nobody) ?? '', revision: onBench().study?.revision ?? '' });

  return {
    answer, isAsking: failure === undefined && known?.of !== asked, failure, pending, refusal, isBusy,
    unkept: unkept.length === 0 ? undefined : { count: unkept.length, why: unkept[0]!.why, again: () => void inTurn(async () => { for (const { cells } of unkept) await keep(cells); return true; }) },
    say: async (said) => {
      if (!answer) return false;
      if (said.is === 'symptom') setPending((now) => new Map([...now, [said.text, true]]));
      return inTurn(async () => {
        const line = { text, log: log ?? '', name: answer.name === '' ? answer.newName : answer.name, mode: answer.mode, said };
        // the patient worker has it at once when it has worked ahead; it works out what it means while it is written
        const making = (isReady.current ? askAside : ask)('fault_line', line);
        askAside('fault_expected', line).catch(() => undefined);
        const made = await making;
        if (!made.ok) { setRefusal(made.problem); setPending(none); return false; }
        await keep(whole(made.cells));
        return true;
      });
    },
    takeBack: (id, symptom) => {
      if (!answer || waiting.current > 0) return;
      if (symptom !== undefined) setPending(new Map([[symptom, false]]));
      void inTurn(async () => { await keep(whole(written(takenBackCells(answer.name, id)))); return true; });
    },
    end: (note) => { if (answer) void inTurn(async () => { await keep(whole(written(endCells(answer.name, note)))); return true; }); },
    choose: (next) => { setMode(undefined); setRefusal(undefined); setName(next); },
    beginIn: (next) => { setRefusal(undefined); setName(''); setMode(next); },
  };
}
