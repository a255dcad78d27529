/** Everything that the desk shows of a text: findings, the next thing, the outline, and the model of the sheet that lies on it. */
import type { Build } from '../../../core/build/build.ts';
import { isUnreadable } from '../../../core/findings/file-checks.ts';
import { countLevels } from '../../../sheets/levels.ts';
import { models } from '../../../sheets/models.ts';
import { findingRow } from '../finding-row.ts';
import type { KeptAnalysis } from '../kept-analysis.ts';
import { outlineOf } from '../outline.ts';
import type { Questions } from '../protocol.ts';

/** @param now  [ms], of any clock */
export async function answerStudy({ text, sheet, choices, folder }: Questions['study']['asks'], kept: KeptAnalysis, now: () => number): Promise<Questions['study']['answer']> {
  const start = now();
  const analysis = kept.of(text);
  const { build, findings, next } = analysis;
  const model = models.find(({ name }) => name === sheet) ?? models[0];
  if (!model) throw new Error('the set has no sheets');
  return {
    build: build.name, units: build.units, counts: countLevels(findings),
    open: findings.filter(({ level }) => level !== 'holds').map(findingRow),
    next: { do: next.do, path: next.path, about: next.about },
    problems: build.problems, outline: outlineOf(analysis),
    sheet: { name: model.name, model: await model.model(analysis, choices, folder) },
    isEmpty: isEmpty(text, build), revision: await revisionOf(text), took: now() - start,
  };
}

/** Nothing to draw yet: no text at all, or a head without parts, cells or runs. A text that cannot be read is not empty. */
function isEmpty(text: string, build: Build): boolean {
  if (text.replace(/#.*$/gm, '').trim() === '') return true;
  return !isUnreadable(build.problems, build.parts.size) && build.parts.size === 0 && build.runs.size === 0 && build.cells.size === 0;
}

/** First characters of the SHA-256 of the text, as `halfshaft sheet` prints them; — where the browser computes none (an address that is not local). */
async function revisionOf(text: string): Promise<string> {
  if (!globalThis.isSecureContext) return '—';
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return [...hash.slice(0, 4)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
