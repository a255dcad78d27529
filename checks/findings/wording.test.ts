/** The code table is complete and plain: every row whole, no forbidden promises, wording that only names what can be filled in. */
import { describe, expect, it } from 'vitest';
import { codeTable } from '../../core/findings/code-table.ts';
import { commonPlaceholders } from '../../core/findings/word.ts';
import { sourceFiles } from '../architecture/imports.ts';

const rows = [...codeTable.values()];
const placeholders = (text: string): string[] => [...text.matchAll(/\{([^}]*)\}/g)].map((match) => match[1] as string);
const topicsText = sourceFiles(['core/topics', 'core/findings', 'core/faults/effects']).filter(({ path }) => !path.includes('/codes/')).map(({ text }) => text).join('\n');

describe.each(rows)('$code', (row) => {
  it('says everything', () => {
    for (const text of [row.title, row.formula, row.why, row.whatToDo, row.wording.holds, row.wording.broken, row.wording.unknown]) expect(text.trim().length).toBeGreaterThan(5);
    expect(row.sources.length).toBeGreaterThan(0);
    expect(row.code).toMatch(/^[a-z-]+\.[a-z0-9-]+$/);
  });
  it('never says safe', () => {
    expect(JSON.stringify(row)).not.toMatch(/\b(un)?safe(ly|ty)?\b(?! extra)/i);
  });
  it('is used by a check', () => expect(topicsText).toContain(row.code));
  it('names only placeholders that some check fills', () => {
    for (const name of [row.wording.holds, row.wording.broken, row.wording.unknown, row.whatToDo].flatMap(placeholders)) {
      expect(name).toMatch(/^[a-z_]+$/);
      if (!(commonPlaceholders as readonly string[]).includes(name)) expect(topicsText, `{${name}} is filled by no check`).toMatch(new RegExp(`\\b${name}\\b\\s*[:,}]`));
    }
  });
});
