/** Everything that takes time before anything can be drawn, begun at once: the file, the program of the analysis, the first analysis. */
import { analysisClient } from './analysis/client.ts';
import type { AnalysisClient } from './analysis/client.ts';
import { buildFile } from './server-link/build-file.ts';
import type { BuildFile } from './server-link/build-file.ts';

export interface Opening {
  readonly client: AnalysisClient;
  readonly file: ReturnType<BuildFile['get']>;
  /** told in a sentence when the analysis had to be started anew */
  readonly onRestart: (hear: (why: string) => void) => void;
}

export function open(): Opening {
  let hearer: (why: string) => void = () => undefined;
  const client = analysisClient(() => new Worker(new URL('./analysis/analysis-worker.ts', import.meta.url), { type: 'module' }), (why) => hearer(why));
  const file = buildFile.get();
  // while the page is still being read; the desk asks the same again and has it answered from what is kept then
  void file.then((opened) => ('disk' in opened ? client.ask('findings', { text: opened.disk.text }) : undefined)).catch(() => undefined);
  return { client, file, onRestart: (hear) => { hearer = hear; } };
}
