/** halfshaft book BUILD -o book.pdf */
import { statSync } from 'node:fs';
import { makeBook } from '../../book/make-book.ts';
import type { BookSheet, PaperSize } from '../../book/make-book.ts';
import type { Analysis } from '../../core/analyse.ts';
import { drawings } from '../../sheets/drawings.ts';
import { models } from '../../sheets/models.ts';
import type { Choices, Folder, SheetName } from '../../sheets/sheet.ts';
import { readFont } from '../font-faces.ts';
import { folderOf, openSheets } from '../sheet-choices.ts';
import type { SheetOptions } from '../sheet-choices.ts';
import type { Terminal } from '../terminal.ts';
import { writeWhole } from '../write-whole.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options extends SheetOptions { readonly output: string; readonly paper: PaperSize }

export async function book(path: string, options: Options, { print }: Terminal): Promise<void> {
  const { output, paper } = options;
  if (statSync(output, { throwIfNoEntry: false })?.isDirectory() === true) throw new WrongCall(`${output} is a folder; name the file to write: -o ${output.replace(/\/+$/, '')}/book.pdf`);
  const { analysis, choices, frame } = openSheets(path, options);
  const sheets = await wholeSet(analysis, choices, new Set(), await folderOf(path));
  const { bytes, pages, lacking } = await makeBook({ sheets, frame, paper, created: dayOf(options.date), fonts: { sans: readFont('sans', 'woff'), strong: readFont('strong', 'woff'), mono: readFont('mono', 'woff') } });
  await writeWhole(output, bytes);
  print(`${output}: ${pages} ${pages === 1 ? 'page' : 'pages'} ${paper} landscape, ${Math.ceil(bytes.length / 1000)} kB\n`);
  if (lacking.length > 0) print(`The lettering lacks ${lacking.join(' ')}: a box stands in the place of each.\n`);
}

/** @param without  sheets to leave out; every other one comes with its pages */
export async function wholeSet(analysis: Analysis, choices: Choices, without: ReadonlySet<SheetName> = new Set(), folder?: Folder): Promise<BookSheet[]> {
  const sheets: BookSheet[] = [];
  for (const drawing of drawings) {
    if (without.has(drawing.name)) continue;
    const model = models.find(({ name }) => name === drawing.name);
    if (!model) throw new Error(`sheet ${drawing.name} has a drawing and no model`);
    sheets.push({ drawing, pages: drawing.pages(await model.model(analysis, choices, folder)) });
  }
  return sheets;
}

/** Noon of the day, so that it is that day in nearly every time zone; undefined for a date written in another way. */
function dayOf(date: string | undefined): Date | undefined {
  if (date === undefined || !/^\d{4}-\d{2}-\d{2}$/.test(date)) return undefined;
  const day = new Date(`${date}T12:00:00Z`);
  return Number.isNaN(day.getTime()) || day.toISOString().slice(0, 10) !== date ? undefined : day;
}
