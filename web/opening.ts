/** Everything that takes time before anything can be drawn, begun at once: the file, the program of the analysis, the first analysis. */
import { analysisClient } from './analysis/client.ts';
import type { AnalysisClient } from './analysis/client.ts';
import { slowSheets } from '../sheets/sheet.ts';
import { buildFile } from './server-link/build-file.ts';
import type { BuildFile } from './server-link/build-file.ts';
import { firstStudy } from './server-link/first-study.ts';

export interface Opening {
  readonly client: AnalysisClient;
  /** a second worker, for what takes seconds; it starts when it is first asked */
  readonly patient: AnalysisClient;
  readonly file: ReturnType<BuildFile['get']>;
  /** told in a sentence when the analysis had to be started anew */
  readonly onRestart: (hear: (why: string) => void) => void;
}

/** What takes seconds here may take a minute on a slow machine with a large build [ms]. */
const LONGEST_ASIDE = 180_000;

/** By then the first study lies on the desk [ms]. */
const DRAWN = 400;

export function open(): Opening {
  let hearer: (why: string) => void = () => undefined;
  const make = (): Worker => new Worker(new URL('./analysis/analysis-worker.ts', import.meta.url), { type: 'module' });
  const client = analysisClient(make, (why) => hearer(why));
  const patient = analysisClient(make, (why) => hearer(why), LONGEST_ASIDE);
  client.getReady();
  const file = buildFile.get();
  let isFirst = true;
  const begin = (text: string): void => void client.ask('begin', { text }).catch(() => undefined);
  // while the page is still being read; the desk asks the same again and has it answered from what is kept then
  void file.then((opened) => { if ('disk' in opened && opened.hasStudies !== true) begin(opened.disk.text); });
  const study: AnalysisClient['study'] = async (asks) => {
    const isAsked = isFirst && !slowSheets.has(asks.sheet);
    isFirst = false;
    const opened = isAsked ? await file : undefined;
    const first = opened && 'disk' in opened && opened.hasStudies === true ? await firstStudy(asks) : undefined;
    if (!first) return client.study(asks);
    // the page's own worker catches up once that has been drawn
    setTimeout(() => begin(asks.text), DRAWN);
    return first;
  };
  return { client: { ...client, study }, patient, file, onRestart: (hear) => { hearer = hear; } };
}
