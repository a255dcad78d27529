/** Everything that takes time before anything can be drawn, begun at once: the file, the program of the analysis, the first analysis. */
import { analysisClient } from './analysis/client.ts';
import type { AnalysisClient } from './analysis/client.ts';
import { buildFile } from './server-link/build-file.ts';
import type { BuildFile } from './server-link/build-file.ts';

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

export function open(): Opening {
  let hearer: (why: string) => void = () => undefined;
  const make = (): Worker => new Worker(new URL('./analysis/analysis-worker.ts', import.meta.url), { type: 'module' });
  const client = analysisClient(make, (why) => hearer(why));
  const patient = analysisClient(make, (why) => hearer(why), LONGEST_ASIDE);
  client.getReady();
  const file = buildFile.get();
  // while the page is still being read; the desk asks the same again and has it answered from what is kept then
  void file.then((opened) => ('disk' in opened ? client.ask('begin', { text: opened.disk.text }) : undefined)).catch(() => undefined);
  return { client, patient, file, onRestart: (hear) => { hearer = hear; } };
}
