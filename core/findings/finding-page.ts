/**
 * The page of docs/findings for one code, made from the code table, so that page and message never disagree.
 */
import type { CodeRow } from './code-row.ts';

/** @param titleOf  full title of a source key */
export function findingPage(row: CodeRow, titleOf: (key: string) => string): string {
  return [
    `# ${row.code}`, '',
    `**${row.title}.** Subject: ${row.topic}. When it is not so: level \`${row.whenBroken}\`.${row.nearMargin > 0 ? ` Level \`watch\` when less than ${Math.round(row.nearMargin * 100)} % is left.` : ''}`, '',
    '## What is compared', '', row.formula, '',
    '## Why it matters', '', row.why, '',
    '## What to do', '', named(row.whatToDo), '',
    '## How it reads', '',
    `- holds: ${quoted(row.wording.holds)}`, `- does not: ${quoted(row.wording.broken)}`, `- cannot be said: ${quoted(row.wording.unknown)}`, '',
    '## Sources', '',
    ...row.sources.map((key) => `- \`${key}\`: ${titleOf(key)}`), '',
  ].join('\n');
}

/** The list of all codes, by subject. */
export function findingIndex(rows: readonly CodeRow[]): string {
  const topics = [...new Set(rows.map(({ topic }) => topic))];
  return [
    '# Findings', '',
    'Made from the code table (`core/findings/codes`); `npm run docs` writes it again. Levels: `stop` do not go on; `fix` put right before use; `watch` holds, but only just or not surely; `unknown` needs data; `holds`.', '',
    ...topics.flatMap((topic) => [`## ${topic}`, '', ...rows.filter((row) => row.topic === topic).map((row) => `- [${row.code}](${row.code}.md): ${row.title}`), '']),
  ].join('\n');
}

/** Braces stand for numbers that the check puts in. */
function quoted(wording: string): string {
  return `“${named(wording)}”`;
}

function named(wording: string): string {
  return wording.replace(/\{([a-z_]+)\}/g, '‹$1›');
}
