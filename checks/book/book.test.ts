/** The printed book of the demo builds. */
import { createElement as draw } from 'react';
import { describe, expect, it } from 'vitest';
import { drawPage } from '../../sheets/draw-page.tsx';
import { drawings } from '../../sheets/drawings.ts';
import { border, page as sheetSize } from '../../sheets/frame/page-size.ts';
import { paper } from '../../sheets/palette.ts';
import { renderPage } from '../../sheets/render-page.ts';
import { sheetNames } from '../../sheets/sheet.ts';
import { examples } from '../fixtures/examples.ts';
import { bookmarksOf, infoOf, openPdf, pathsOf, textsOf } from './read-pdf.ts';
import type { PlacedText } from './read-pdf.ts';
import { bookOf, bookOfPages, sheetsOf } from './sample-book.ts';

const bare = (text: string): string => text.replace(/\s+/g, '');
const unescaped = (text: string): string => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&#x27;', "'").replaceAll('&amp;', '&');

/** drawn once; layouts of diagrams take their time on a busy machine */
// what is long of the larger cars is taken of the small one here; checks/golden draws all
const all = new Map(examples.map(({ name, text }) => [name, sheetsOf(text, {}, name === 'orchard-hauler' ? [] : ['single-failures', 'power-up', 'fault-finding'])]));
const sheetsOfExample = (name: string): ReturnType<typeof sheetsOf> => all.get(name) as ReturnType<typeof sheetsOf>;
const books = new Map(examples.map(({ name }) => [name, sheetsOfExample(name).then(async (found) => bookOf(found))]));
const bookOfExample = (name: string): ReturnType<typeof bookOf> => books.get(name) as ReturnType<typeof bookOf>;
const timeout = 180_000;

describe.each(examples)('the book of $name', { timeout }, ({ name: example }) => {
  const values = sheetsOfExample(example);
  const made = bookOfExample(example);
  const opened = made.then(async ({ bytes }) => openPdf(bytes));
  /** of each page */
  const read = opened.then(async (pdf) => {
    const texts: PlacedText[][] = [];
    for (let number = 1; number <= pdf.numPages; number++) texts.push(await textsOf(await pdf.getPage(number)));
    return texts;
  });

  it('has a page for every page of every sheet, A3 landscape, in the order of the set', async () => {
    const [{ sheets }, pdf, { pages }] = [await values, await opened, await made];
    expect(pdf.numPages).toBe(sheets.reduce((sum, one) => sum + one.pages.length, 0));
    expect(pages).toBe(pdf.numPages);
    for (let number = 1; number <= pdf.numPages; number++) {
      const { width, height } = (await pdf.getPage(number)).getViewport({ scale: 1 });
      expect([width / 72 * 25.4, height / 72 * 25.4].map(Math.round)).toEqual([420, 297]);
    }
    const labels = (await pdf.getPageLabels()) ?? [];
    expect(labels).toEqual(sheets.flatMap(({ drawing, pages: own }) => own.map((_page, index) => `${sheetNames.indexOf(drawing.name) + 1}${own.length === 1 ? '' : `.${index + 1}`}`)));
    expect(new Set(labels).size).toBe(labels.length);
  });
  it('has a bookmark for every sheet, and one for every page of a sheet of several', async () => {
    const [{ sheets }, pdf] = [await values, await opened];
    const marks = await bookmarksOf(pdf);
    expect(marks.length).toBe(sheets.length);
    let page = 1;
    sheets.forEach(({ drawing, pages }, index) => {
      const mark = marks[index];
      expect(mark?.title).toContain(drawing.title);
      expect(mark?.page).toBe(page);
      expect(mark?.below.map((one) => one.page)).toEqual(pages.length === 1 ? [] : pages.map((_page, at) => page + at));
      page += pages.length;
    });
  });
  it('has every word of every page as text, the caution and the next thing on each', async () => {
    const [{ sheets, frame }, texts] = [await values, await read];
    let number = 0;
    for (const { drawing, pages } of sheets) for (const [index, page] of pages.entries()) {
      const written = bare(texts[number++]!.map((one) => one.text).join(''));
      expect(written).toContain(bare('it proves nothing about the vehicle. Batteries and high voltage kill'));
      // a page with a foot of its own has it in its drawing, under a heading
      const next = page.foot === undefined ? frame.note : frame.note?.replace('Next: ', '');
      expect(written).toContain(bare((next ?? '').slice(0, 40)));
      const svg = renderPage(drawPage(drawing, pages, index, { ...frame, palette: paper }));
      const lines = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, line = '']) => bare(unescaped(line)));
      expect(lines.filter((line) => !written.includes(line)), `${drawing.name}, page ${index + 1}`).toEqual([]);
    }
  });
  it.runIf(drawings.length === sheetNames.length)('names every part', async () => {
    const whole = bare((await read).flat().map((one) => one.text).join(' '));
    expect((await values).parts.filter((name) => !whole.includes(bare(name)))).toEqual([]);
  });
  it('keeps text inside the border and lines inside the zones', async () => {
    const [pdf, texts] = [await opened, await read];
    for (let number = 1; number <= pdf.numPages; number++) {
      const page = await pdf.getPage(number);
      const outside = texts[number - 1]!.filter(({ left, right, top, bottom }) => left < border.left || right > border.right || top < border.top || bottom > border.bottom);
      // only the letters and numbers of the zones stand there
      expect(outside.map((one) => one.text).filter((one) => !/^[1-8A-F]$/.test(one))).toEqual([]);
      for (const { left, right, top, bottom } of outside) expect(Math.min(left, top, sheetSize.width - right, sheetSize.height - bottom)).toBeGreaterThan(0);
      const [sheet, ...lines] = await pathsOf(page);
      expect(sheet?.right).toBeCloseTo(sheetSize.width, 0);
      expect(lines.filter((box) => box.left < border.left - 5.1 || box.right > border.right + 5.1 || box.top < border.top - 5.1 || box.bottom > border.bottom + 5.1)).toEqual([]);
    }
  });
  it('carries its own fonts, only the letters it uses', async () => {
    const { bytes, lacking } = await made;
    const raw = Buffer.from(bytes).toString('latin1');
    const descriptors = raw.match(/\/Type \/FontDescriptor/g) ?? [];
    expect(descriptors.length).toBeGreaterThan(1);
    expect(raw.match(/\/FontFile2 /g)?.length).toBe(descriptors.length);
    expect([...raw.matchAll(/\/BaseFont \/(\S+)/g)].map(([, name]) => name).filter((name) => !/^[A-Z]{6}\+IBMPlex(Sans|Sans-SmBld|Mono)$/.test(name as string))).toEqual([]);
    expect(lacking).toEqual([]);
  });
  it('tells its sheets in words to those who listen', async () => {
    const [{ sheets, frame }, pdf] = [await values, await opened];
    const [block] = sheets[0]?.pages[0]?.text ?? [];
    const tree = JSON.stringify(await (await pdf.getPage(1)).getStructTree());
    expect(tree).toContain('"role":"Figure"');
    expect(block?.kind).toBe('heading');
    expect(bare(tree).toUpperCase()).toContain(bare(JSON.stringify(block && 'text' in block ? block.text : '').slice(1, -1)).toUpperCase());
    const info = await infoOf(pdf);
    expect(info['Title']).toBe(`${frame.build}: build book`);
    expect(info['Language']).toBe('en');
  });
});

describe('a book', { timeout }, () => {
  const one = { body: draw('text', { x: 10, y: 20, fontSize: 5, fill: '#22252b' }, 'one'), text: [] };
  it('comes out the same to the byte, and without a date of its own', async () => {
    const [first, second] = [await bookOfExample('orchard-hauler'), await bookOf(await sheetsOfExample('orchard-hauler'))];
    expect(Buffer.compare(first.bytes, second.bytes)).toBe(0);
    expect(Buffer.from(first.bytes).toString('latin1')).not.toContain('CreationDate');
  });
  it('has another identity when anything on it differs', async () => {
    const identity = async (letters: string): Promise<string> => /\/ID \[(<\w+>)/.exec(Buffer.from((await bookOfPages([{ ...one, body: draw('text', { y: 20, fontSize: 5 }, letters) }])).bytes).toString('latin1'))?.[1] ?? 'none';
    expect(await identity('one')).toMatch(/^<\w{32}>$/);
    expect(await identity('one')).not.toBe(await identity('two'));
  });
  it('has the date that it is handed', async () => {
    const sheets = [{ drawing: { name: 'layout', title: 'Layout', meaning: '', pages: () => [one] } as const, pages: [one] }];
    const { bytes } = await bookOf({ sheets, frame: { build: 'A', revision: 'r', date: '2026-05-04', note: undefined } }, 'A3', new Date('2026-05-04T12:00:00Z'));
    const info = await infoOf(await openPdf(bytes));
    expect(info['CreationDate']).toBe('D:20260504120000Z');
  });
  it('is the same drawing at 1:√2 on A4', async () => {
    const values = await sheetsOfExample('orchard-hauler');
    const [large, small] = [await openPdf((await bookOfExample('orchard-hauler')).bytes), await openPdf((await bookOf(values, 'A4')).bytes)];
    expect(small.numPages).toBe(large.numPages);
    const { width, height } = (await small.getPage(1)).getViewport({ scale: 1 });
    expect([width / 72 * 25.4, height / 72 * 25.4].map(Math.round)).toEqual([297, 210]);
    const [onLarge, onSmall] = [await textsOf(await large.getPage(1)), await textsOf(await small.getPage(1))];
    expect(onSmall.map(({ text }) => text)).toEqual(onLarge.map(({ text }) => text));
    onSmall.forEach(({ left, bottom }, index) => {
      expect(left).toBeCloseTo((onLarge[index]?.left ?? 0) * Math.SQRT1_2, 1);
      expect(bottom).toBeCloseTo((onLarge[index]?.bottom ?? 0) * Math.SQRT1_2, 1);
    });
  });
  it('takes a name with signs that files use for themselves', async () => {
    const pdf = await openPdf((await bookOfPages([one, { ...one, subtitle: 'a (b) \\ <c>' }], 'A & <B> (Ω) \\ "q"')).bytes);
    const info = await infoOf(pdf);
    expect(info['Title']).toBe('A & <B> (Ω) \\ "q": build book');
    expect((await bookmarksOf(pdf))[0]?.below.map(({ title }) => title)).toEqual(['2.1  page 1 of 2', '2.2  a (b) \\ <c>']);
  });
});
