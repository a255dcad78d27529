/**
 * Every page of every sheet of the demo builds, against the drawing that somebody looked at and kept. One element a line, so that a
 * change can be read. After looking at the new drawings: `npm run golden` keeps them.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { drawPage } from '../../sheets/draw-page.tsx';
import { drawings } from '../../sheets/drawings.ts';
import { models } from '../../sheets/models.ts';
import { paper } from '../../sheets/palette.ts';
import { renderPage } from '../../sheets/render-page.ts';
import { root } from '../architecture/imports.ts';
import { analysed } from '../fixtures/analysed.ts';
import { examples } from '../fixtures/examples.ts';

const isKeeping = process.env['HALFSHAFT_KEEP_GOLDEN'] === '1';

describe.each(examples)('$name', ({ name, text }) => {
  const analysis = analysed(text);
  const folder = join(root, 'checks/golden/sheets', name);
  it.each(drawings.map((drawing) => ({ sheet: drawing.name, drawing })))('$sheet', async ({ sheet, drawing }) => {
    const model = models.find((one) => one.name === sheet)!;
    const pages = drawing.pages(await model.model(analysis, { units: { system: analysis.build.units }, state: {} }));
    const drawn = pages.map((_, index) => renderPage(drawPage(drawing, pages, index, { build: analysis.build.name, revision: '00000000', date: undefined, note: undefined, palette: paper })).replaceAll('><', '>\n<'));
    if (isKeeping) {
      mkdirSync(folder, { recursive: true });
      for (const file of readdirSync(folder)) if (file.startsWith(`${sheet}-`) && /^\d+\.svg$/.test(file.slice(sheet.length + 1))) rmSync(join(folder, file));
      drawn.forEach((svg, index) => writeFileSync(join(folder, `${sheet}-${index + 1}.svg`), svg));
    }
    const kept = readdirSync(folder).filter((file) => file.startsWith(`${sheet}-`) && /^\d+\.svg$/.test(file.slice(sheet.length + 1)));
    expect(kept.length, 'pages').toBe(drawn.length);
    drawn.forEach((svg, index) => expect(svg, `page ${index + 1}`).toBe(readFileSync(join(folder, `${sheet}-${index + 1}.svg`), 'utf8')));
  }, 60_000);
});
