/** halfshaft check BUILD */
import { isUnreadable } from '../../core/findings/file-checks.ts';
import type { TopicName } from '../../core/findings/finding.ts';
import { analyse, topics, withChances } from '../../core/analyse.ts';
import { openBuild } from '../open-build.ts';
import type { ExitCode, Terminal } from '../terminal.ts';
import { words } from '../../catalogue/words.ts';
import { seedOption, wholeNumber } from '../whole-number.ts';
import { WrongCall } from '../wrong-call.ts';
import { findingsText } from '../show/findings-text.ts';
import { textWidth } from '../show/text-width.ts';

interface Options { readonly json?: boolean; readonly topic: readonly string[]; readonly draws: string; readonly seed: string; readonly workers: string; readonly all?: boolean }

export async function check(path: string, options: Options, terminal: Terminal): Promise<ExitCode> {
  const draws = wholeNumber(options.draws, '--draws', 0, 100_000);
  const seed = seedOption(options.seed);
  const workers = wholeNumber(options.workers, '--workers', 1, 64);
  const names: readonly TopicName[] = ['file', ...topics.map(({ name }) => name)];
  for (const topic of options.topic) if (!names.includes(topic as TopicName)) throw new WrongCall(`--topic ${topic}: expected one of ${names.join(', ')}.`);
  const only = options.topic.length === 0 ? undefined : (options.topic as readonly TopicName[]);

  const { file, text } = openBuild(path);
  let analysis = analyse(text, words, only ? { only } : {});
  if (draws > 0) {
    const [{ sampleOnWorkers }, { progressBar }] = [await import('../sample-on-workers.ts'), await import('../show/progress-bar.ts')];
    const margins = await sampleOnWorkers(text, { draws, seed, only }, workers, progressBar(terminal, draws));
    analysis = withChances(analysis, margins, { draws, seed });
  }
  if (options.json === true) {
    const { findingsJson } = await import('../show/findings-json.ts');
    terminal.print(`${JSON.stringify(findingsJson(analysis, { draws, seed }), null, 2)}\n`);
  } else {
    terminal.print(findingsText(analysis, { file, showAll: options.all === true, draws, width: textWidth(terminal) }));
  }
  return isUnreadable(analysis.build.problems, analysis.build.parts.size) ? 2 : analysis.findings.some(({ level }) => level === 'stop') ? 1 : 0;
}
