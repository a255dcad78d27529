/** `halfshaft book` as the person calls it, without the process around it. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { book } from '../../cli/commands/book.ts';
import { WrongCall } from '../../cli/wrong-call.ts';
import { root } from '../architecture/imports.ts';
import { infoOf, openPdf } from './read-pdf.ts';

const folder = mkdtempSync(join(tmpdir(), 'book-'));
const hauler = join(root, 'examples/orchard-hauler');
const plain = { paper: 'A3', set: [], without: [], failed: [] } as const;
const small = join(folder, 'small.yaml');
writeFileSync(small, 'halfshaft: 1\nname: Small\n');
let printed = '';
beforeEach(() => {
  printed = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => { printed += String(text); return true; });
});
afterEach(() => vi.restoreAllMocks());
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// diagrams take their time on a busy machine
describe('halfshaft book', { timeout: 120_000 }, () => {
  it('writes the book and says how many pages it has and how large it is', async () => {
    const output = join(folder, 'hauler.pdf');
    await book(hauler, { ...plain, output, paper: 'A4', date: '2026-05-04' });
    const pdf = await openPdf(readFileSync(output));
    const pages = `${pdf.numPages} page${pdf.numPages === 1 ? '' : 's'}`;
    expect(printed).toMatch(new RegExp(`hauler\\.pdf: ${pages} A4 landscape, \\d+ kB\\n$`));
    const info = await infoOf(pdf);
    expect(info['CreationDate']).toBe('D:20260504120000Z');
    expect(readdirSync(folder).sort()).toEqual(['hauler.pdf', 'small.yaml']);
  });
  it('prints a date as it was written, and makes no date of what is none', async () => {
    const output = join(folder, 'small.pdf');
    await book(small, { ...plain, output, date: 'May 2026, 2nd print' });
    const pdf = await openPdf(readFileSync(output));
    const { items } = await (await pdf.getPage(1)).getTextContent();
    expect(items.map((item) => ('str' in item ? item.str : '')).join('')).toContain('May 2026, 2nd print');
    expect((await infoOf(pdf))['CreationDate']).toBeUndefined();
  });
  it('writes a book of a file with nothing in it', async () => {
    const empty = join(folder, 'empty.yaml');
    writeFileSync(empty, '');
    await book(empty, { ...plain, output: join(folder, 'empty.pdf') });
    expect((await openPdf(readFileSync(join(folder, 'empty.pdf')))).numPages).toBeGreaterThan(0);
  });
  it('says which letters of the file no font has', async () => {
    const file = join(folder, 'letters.yaml');
    writeFileSync(file, 'halfshaft: 1\nname: Van 漢\n');
    await book(file, { ...plain, output: join(folder, 'letters.pdf') });
    expect(printed).toContain('The lettering lacks 漢');
  });
  it('refuses a folder, a place that does not exist, a build that does not exist and a mode that the build has not', async () => {
    const call = async (path: string, options: object): Promise<void> => book(path, { ...plain, output: join(folder, 'no.pdf'), ...options });
    mkdirSync(join(folder, 'shelf'));
    await expect(call(hauler, { output: join(folder, 'shelf') })).rejects.toThrow(/shelf is a folder; name the file to write/);
    await expect(call(small, { output: join(folder, 'nowhere', 'no.pdf') })).rejects.toThrow(/cannot be written: the folder it would stand in does not exist/);
    await expect(call(join(folder, 'nothing'), {})).rejects.toThrow(WrongCall);
    await expect(call(hauler, { state: 'flying' })).rejects.toThrow(WrongCall);
    expect(readdirSync(folder)).not.toContain('no.pdf');
    expect(printed).toBe('');
  });
});
