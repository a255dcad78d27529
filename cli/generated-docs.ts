/** Every generated page of the documentation, by its path in the repository. */
import { referencePage } from '../core/build/reference-page.ts';
import { codeTable } from '../core/findings/code-table.ts';
import { findingIndex, findingPage } from '../core/findings/finding-page.ts';
import { sources, sourcesPage } from '../catalogue/sources.ts';
import { words } from '../catalogue/words.ts';

export function generatedDocs(): ReadonlyMap<string, string> {
  const titleOf = (key: string): string => sources.get(key)?.title ?? key;
  return new Map([
    ['SOURCES.md', sourcesPage()],
    ['docs/build-file.md', referencePage(words)],
    ['docs/findings/README.md', findingIndex([...codeTable.values()])],
    ...[...codeTable.values()].map((row): [string, string] => [`docs/findings/${row.code}.md`, findingPage(row, titleOf)]),
  ]);
}
