/** The documentation says what the code says: generated pages are current, links lead somewhere, source keys exist. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sources } from '../../catalogue/sources.ts';
import { catalogue } from '../../catalogue/index.ts';
import { generatedDocs } from '../../cli/generated-docs.ts';
import { codeTable } from '../../core/findings/code-table.ts';
import { root } from '../architecture/imports.ts';

const pages = generatedDocs();
const markdown = (folder: string): string[] => readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => entry.isDirectory() ? (['node_modules', 'dist', '.git'].includes(entry.name) ? [] : markdown(join(folder, entry.name))) : entry.name.endsWith('.md') ? [join(folder, entry.name)] : []);

describe('generated pages', () => {
  it.each([...pages.keys()])('%s is what npm run docs writes', (path) => {
    expect(existsSync(join(root, path)), `${path} is missing: npm run docs`).toBe(true);
    expect(readFileSync(join(root, path), 'utf8')).toBe(pages.get(path));
  });
  it('has no page of a code that is gone', () => {
    expect(readdirSync(join(root, 'docs/findings')).filter((name) => !pages.has(`docs/findings/${name}`))).toEqual([]);
  });
});

describe('links and keys', () => {
  it('has no link to a file that is not there', () => {
    const broken = markdown('.').flatMap((path) => [...readFileSync(join(root, path), 'utf8').matchAll(/\]\((?!https?:|#|mailto:)([^)#\s]+)(?:#[^)]*)?\)/g)].map((match) => match[1] as string).filter((to) => !existsSync(resolve(root, dirname(path), to))).map((to) => `${path} -> ${to}`));
    expect(broken).toEqual([]);
  });
  it('knows every source that a finding or a handbook row names', () => {
    const named = [...[...codeTable.values()].flatMap((row) => row.sources.map((key) => `${row.code}: ${key}`)), ...[...catalogue.rows.values()].map((row) => `${row.key}: ${row.source}`), ...[...catalogue.tables.values()].map((table) => `${table.key}: ${table.source}`)];
    expect(named.filter((entry) => !sources.has(entry.slice(entry.indexOf(': ') + 2)))).toEqual([]);
  });
});
