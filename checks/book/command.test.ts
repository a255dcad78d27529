/** `halfshaft book` as the person calls it. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { call } from '../cli/call.ts';
import type { Called } from '../cli/call.ts';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';
import { infoOf, openPdf } from './read-pdf.ts';

const folder = mkdtempSync(join(tmpdir(), 'book-'));
/** every sheet has something to draw of it; the demo builds are printed in book.test.ts */
const bench = join(folder, 'bench.yaml');
const small = join(folder, 'small.yaml');
writeFileSync(bench, lowVoltageCar);
writeFileSync(small, 'halfshaft: 1\nname: Small\n');
const book = (path: string, output: string, ...more: readonly string[]): Promise<Called> => call('book', path, '-o', output, ...more);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// diagrams take their time on a busy machine
describe('halfshaft book', { timeout: 120_000 }, () => {
  it('writes the book and says how many pages it has and how large it is', async () => {
    const output = join(folder, 'bench.pdf');
    const { code, out } = await book(bench, output, '--paper', 'A4', '--date', '2026-05-04');
    expect(code).toBe(0);
    const pdf = await openPdf(readFileSync(output));
    const pages = `${pdf.numPages} page${pdf.numPages === 1 ? '' : 's'}`;
    expect(out).toMatch(new RegExp(`bench\\.pdf: ${pages} A4 landscape, \\d+ kB\\n$`));
    const info = await infoOf(pdf);
    expect(info['CreationDate']).toBe('D:20260504120000Z');
    expect(readdirSync(folder).sort()).toEqual(['bench.pdf', 'bench.yaml', 'small.yaml']);
  });
  it('prints a date as it was written, and makes no date of what is none', async () => {
    const output = join(folder, 'small.pdf');
    await book(small, output, '--date', 'May 2026, 2nd print');
    const pdf = await openPdf(readFileSync(output));
    const { items } = await (await pdf.getPage(1)).getTextContent();
    expect(items.map((item) => ('str' in item ? item.str : '')).join('')).toContain('May 2026, 2nd print');
    expect((await infoOf(pdf))['CreationDate']).toBeUndefined();
  });
  it('writes a book of a file with nothing in it', async () => {
    const empty = join(folder, 'empty.yaml');
    writeFileSync(empty, '');
    await book(empty, join(folder, 'empty.pdf'));
    expect((await openPdf(readFileSync(join(folder, 'empty.pdf')))).numPages).toBeGreaterThan(0);
  });
  it('says which letters of the file no font has', async () => {
    const file = join(folder, 'letters.yaml');
    writeFileSync(file, 'halfshaft: 1\nname: Van 漢\n');
    expect((await book(file, join(folder, 'letters.pdf'))).out).toContain('The lettering lacks 漢');
  });
  it('refuses a folder, a place that does not exist, a build that does not exist and a mode that the build has not', async () => {
    const no = join(folder, 'no.pdf');
    mkdirSync(join(folder, 'shelf'));
    const refused = (says: RegExp): object => ({ code: 2, out: '', err: expect.stringMatching(says) });
    expect(await book(bench, join(folder, 'shelf'))).toEqual(refused(/shelf is a folder; name the file to write/));
    expect(await book(small, join(folder, 'nowhere', 'no.pdf'))).toEqual(refused(/cannot be written: the folder it would stand in does not exist/));
    expect(await book(join(folder, 'nothing'), no)).toEqual(refused(/There is no .*nothing/));
    expect(await book(bench, no, '--state', 'flying')).toEqual(refused(/flying/));
    expect(readdirSync(folder)).not.toContain('no.pdf');
  });
});
