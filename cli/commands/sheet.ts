/** halfshaft sheet NAME BUILD -o file.svg */
import { basename, dirname, extname, join } from 'node:path';
import { drawPage } from '../../sheets/draw-page.tsx';
import { faultCases } from '../../core/readings/fault-cases.ts';
import { readLog } from '../../core/readings/log.ts';
import { drawings } from '../../sheets/drawings.ts';
import { models } from '../../sheets/models.ts';
import { blueprint, paper } from '../../sheets/palette.ts';
import { renderPage } from '../../sheets/render-page.ts';
import { sheetsOfLog } from '../../sheets/sheet.ts';
import { plainText } from '../../sheets/text-block.ts';
import { fontFaces } from '../font-faces.ts';
import { noSuch } from '../no-such.ts';
import { folderOf, openSheets } from '../sheet-choices.ts';
import type { SheetOptions } from '../sheet-choices.ts';
import type { Terminal } from '../terminal.ts';
import { writeWhole } from '../write-whole.ts';

interface Options extends SheetOptions { readonly output?: string; readonly theme: 'paper' | 'blueprint'; readonly text?: boolean; readonly fonts: boolean; readonly case?: string }

export async function sheet(name: string, path: string, options: Options, { print }: Terminal): Promise<void> {
  const [model, drawing] = [models.find((one) => one.name === name), drawings.find((one) => one.name === name)];
  if (!model || !drawing) {
    const names = drawings.map((one) => one.name);
    throw noSuch('sheet', name, names, `There are ${names.join(', ')}.`);
  }
  const { analysis, choices, frame } = openSheets(path, options);
  const folder = sheetsOfLog.has(model.name) ? await folderOf(path, options.case) : undefined;
  if (options.case !== undefined) caseThere(folder?.log ?? '', options.case);
  const pages = drawing.pages(await model.model(analysis, choices, folder));
  if (options.text === true) { print(`${pages.map((page) => plainText(page.text)).join('\n')}\n`); return; }
  const fonts = options.fonts ? fontFaces() : undefined;
  const palette = options.theme === 'blueprint' ? blueprint : paper;
  const files = pages.map((_, index) => renderPage(drawPage(drawing, pages, index, { ...frame, palette }), fonts));
  if (options.output === undefined || options.output === '-') { print(files.join('')); return; }
  for (const [index, content] of files.entries()) {
    const file = index === 0 ? options.output : join(dirname(options.output), `${basename(options.output, extname(options.output))}-${index + 1}${extname(options.output)}`);
    await writeWhole(file, content);
    print(`${file}\n`);
  }
}

function caseThere(log: string, name: string): void {
  const names = faultCases(readLog(log).readings).map((one) => one.name);
  if (!names.includes(name)) throw noSuch('conversation', name, names, names.length === 0 ? 'readings.csv has none, or this sheet prints none.' : `There are ${names.join(', ')}.`);
}
