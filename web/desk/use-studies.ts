/** Studies of the text, newest first to be made: of the sheet that lies on the desk at once, of the others when there is time. */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { drawings } from '../../sheets/drawings.ts';
import { laidOutSheets, sheetsOfLog, slowSheets } from '../../sheets/sheet.ts';
import type { Choices, Folder, SheetName } from '../../sheets/sheet.ts';
import type { AnalysisClient } from '../analysis/client.ts';
import { WorkerStopped } from '../analysis/worker-link.ts';
import type { Study } from '../../study/study.ts';
import type { Hands } from '../people/hands.ts';
import { keepEqual } from './keep-equal.ts';
import { logFile } from '../readings/log-file.ts';

export interface Studied {
  readonly text: string; readonly choices: Choices; readonly study: Study;
  /** that it was made with; of sheets that print readings.csv */
  readonly folder?: Folder | undefined;
  /** the findings are of this text; the sheet is still the one of an earlier one, because it takes seconds to make */
  readonly isSheetOld?: true;
}

export interface Studies {
  /** newest of the sheet asked for, or, until there is one, of the sheet before */
  readonly shown: Studied | undefined;
  readonly failure: string | undefined;
  /** of one sheet, of the text and choices as they are now */
  readonly of: (sheet: SheetName) => Promise<Study | undefined>;
  /** a text that will lie on the desk in a moment: its study is begun before the screen has been told */
  readonly begin: (text: string) => Promise<unknown>;
}

/** What the desk knows of the build folder: text of readings.csv, undefined while it is not there, and the chosen conversation. */
export interface Beside { readonly log: string | undefined; readonly name: string | undefined }

async function isLate(made: Promise<unknown>): Promise<boolean> {
  // what fails is told where it is waited for
  const inTime = made.then(() => false, () => false);
  return Promise.race([inTime, new Promise<true>((resolve) => { setTimeout(() => resolve(true), LAID_OUT); })]);
}

async function logOnDisk(): Promise<Folder> {
  const answer = await logFile.get();
  return { log: answer.ok ? answer.text : '' };
}

/** A layout that takes longer than this is not waited for with the findings [ms]. */
const LAID_OUT = 60;

/** Without an edit for this long, the other sheets are made ready [ms]. */
const QUIET = 1200;

/** Asked for findings alone, of a slow sheet's text: the sheet that is soonest made. */
const QUICKEST: SheetName = 'mass';

/**
 * @param patient  makes the slow sheets, so that findings never wait for them
 * @param beside  what lies in the build folder beside the file
 * @param seen  told of every study that was made
 * @param hands  the other sheets wait for them to rest
 */
export function useStudies(client: AnalysisClient, patient: AnalysisClient, text: string, choices: Choices, sheet: SheetName, beside: Beside, seen: (studied: Studied) => void, hands: Hands): Studies {
  const [shown, setShown] = useState<Studied>();
  const [failure, setFailure] = useState<string>();
  const ready = useRef(new Map<SheetName, Studied>());
  const { log, name: faultCase } = beside;
  // a new conversation has nothing to print yet: the sheet says how to begin
  const folder = useMemo((): Folder | undefined => (log === undefined ? undefined : { log, ...(faultCase === undefined ? {} : { faultCase }) }), [log, faultCase]);

  // a longer log makes only the sheets that print it old
  const folderNow = useRef(folder);
  folderNow.current = folder;

  // what an edit leaves as it was is the same object from study to study, and is not drawn again
  const newest = useRef<Omit<Study, 'sheet'>>(undefined);
  const keep = useCallback(({ sheet: made, ...said }: Study): Study => {
    newest.current = keepEqual(newest.current, said);
    return { ...newest.current, sheet: keepEqual(ready.current.get(made.name)?.study.sheet, made) };
  }, []);

  const fresh = useCallback((name: SheetName): Studied | undefined => {
    const one = ready.current.get(name);
    return one?.text === text && one.choices === choices && one.folder === (sheetsOfLog.has(name) ? folderNow.current : undefined) ? one : undefined;
  }, [text, choices]);

  // whoever asks for it is told what goes wrong
  const begin = useCallback((next: string) => client.study({ text: next, sheet: slowSheets.has(sheet) ? QUICKEST : sheet, choices }).catch(() => undefined), [client, choices, sheet]);

  const ofLog = sheetsOfLog.has(sheet) ? folder : undefined;
  useEffect(() => {
    let isOver = false;
    const take = (studied: Studied): void => { setShown(studied); setFailure(undefined); };
    const make = async (attempts: number): Promise<void> => {
      try {
        const isSlow = slowSheets.has(sheet);
        const takeFindings = (quick: Study): void => {
          if (isOver) return;
          const kept = keep(quick);
          setShown((now) => now && { text, choices, study: { ...kept, sheet: now.study.sheet }, isSheetOld: true });
        };
        if (isSlow) {
          const quick = await client.study({ text, sheet: QUICKEST, choices });
          if (!quick || isOver) return;
          takeFindings(quick);
        }
        // made once the log is there
        if (sheetsOfLog.has(sheet) && !ofLog) return;
        const making = (isSlow ? patient : client).study({ text, sheet, choices, ...(ofLog ? { folder: ofLog } : {}) });
        if (laidOutSheets.has(sheet) && await isLate(making)) takeFindings(await client.ask('study', { text, sheet: QUICKEST, choices }));
        const made = await making;
        if (!made) return;
        const study = keep(made);
        const studied = { text, choices, study, folder: ofLog };
        ready.current.set(sheet, studied);
        seen(studied);
        if (!isOver) take(studied);
      } catch (error) {
        if (isOver) return;
        if (error instanceof WorkerStopped && attempts > 0) { await make(attempts - 1); return; }
        setFailure(error instanceof Error ? error.message : String(error));
      }
    };
    const there = fresh(sheet);
    if (there) take(there);
    else void make(1);
    return () => { isOver = true; };
  }, [client, patient, text, choices, sheet, fresh, seen, keep, ofLog]);

  const of = useCallback(async (name: SheetName): Promise<Study | undefined> => {
    const there = fresh(name);
    if (there) return there.study;
    const lies = sheetsOfLog.has(name) ? folderNow.current ?? await logOnDisk() : undefined;
    const study = keep(await (slowSheets.has(name) ? patient : client).ask('study', { text, sheet: name, choices, ...(lies ? { folder: lies } : {}) }));
    const studied = { text, choices, study, folder: lies };
    ready.current.set(name, studied);
    seen(studied);
    return study;
  }, [client, patient, text, choices, fresh, seen, keep]);

  const isFresh = shown?.isSheetOld !== true && shown?.text === text && shown.choices === choices && shown.study.sheet.name === sheet && shown.folder === ofLog;
  useEffect(() => {
    // not before what lies on the desk is drawn
    if (!isFresh) return undefined;
    let isOver = false;
    const timer = setTimeout(async () => {
      for (const { name } of drawings) {
        if (slowSheets.has(name)) continue;
        await hands.rested(QUIET);
        if (isOver) return;
        // a sheet that cannot be made says so when it is asked for
        await of(name).catch(() => undefined);
      }
      // the slow sheets and fault finding, whenever they are asked for, find the build read
      await hands.rested(QUIET);
      if (!isOver) patient.ask('begin', { text }).catch(() => undefined);
    }, QUIET);
    return () => { isOver = true; clearTimeout(timer); };
  }, [of, isFresh, hands, patient, text]);

  return { shown, failure, of, begin };
}
