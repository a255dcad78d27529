import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { drawings } from '../drawings.ts';
import { foot } from '../frame/page-size.ts';
import { sheetNames } from '../sheet.ts';
import { plainText } from '../text-block.ts';
import { lettersInTrouble, textBoxesOf } from '../table/text-boxes.ts';
import { cautionsFor } from './cautions.ts';
import { coverDrawing } from './drawing.tsx';
import { coverModel } from './model.ts';
import type { CoverModel } from './model.ts';
import { setList } from './set-list.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): CoverModel => coverModel.model(analysed(text), choices) as CoverModel;
const demo = (name: string): string => readFileSync(new URL(`../../examples/${name}/build.yaml`, import.meta.url), 'utf8');
const cautionText = (model: CoverModel): string => model.cautions.map(({ title, text }) => `${title} ${text}`).join('\n');
const names = ['bakery-van', 'two-string-coupe', 'orchard-hauler'];

describe('the cover', () => {
  it.each([...names.map(demo), '', 'parts: [1,2\n : }{', `halfshaft: 1\nname: ${'Long name of a vehicle '.repeat(4)}\n`, 'halfshaft: 1\nname: one\nparts:\n  M1: { kind: battery_module }\n'])('draws any build with no letters cut or on each other (%#)', (text) => {
    for (const page of coverDrawing.pages(structuredClone(modelOf(text)))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('lists the sheets beside the title block, above the caution', () => {
    const list = coverDrawing.pages(modelOf(demo('bakery-van')))[0]!.foot;
    expect(textBoxesOf(list).map(({ text }) => text)).toEqual(expect.arrayContaining(sheetNames.map((name) => setList[name].title)));
    expect(lettersInTrouble(list, foot)).toEqual([]);
  });
  it('lists everything that stands open, worst first, on the pages behind', () => {
    const analysis = analysed(demo('two-string-coupe'));
    const model = coverModel.model(analysis, choices) as CoverModel;
    const pages = coverDrawing.pages(model);
    const open = analysis.findings.filter(({ level }) => level !== 'holds');
    const rows = pages.slice(1).flatMap(({ text }) => text.flatMap((block) => (block.kind === 'table' ? block.rows : [])));
    expect(rows.map((row) => row[2])).toEqual(open.map(({ statement }) => statement));
    expect(rows[0]![0]).toBe('stop');
  });
  it('carries the cautions in full, whatever the build', () => {
    for (const text of [...names.map(demo), '']) {
      const said = cautionText(modelOf(text));
      for (const must of [/inspection/, /never proves/, /known source before and after/, /gloves rated for the voltage/, /Never alone/, /No rings/, /wheels free/, /lock it away/]) expect(said).toMatch(must);
      expect(said.toLowerCase()).not.toMatch(/\bsafe\b/);
    }
  });
  it('warns of burns up to 60 V, of death above, and takes an unknown pack for the worse', () => {
    expect(cautionText(modelOf(demo('orchard-hauler')))).toMatch(/57\.6 V DC, class A[\s\S]*10\.\d+ kA through a dropped spanner[\s\S]*Mains/);
    expect(cautionText(modelOf(demo('bakery-van')))).toMatch(/reaches 353 V DC\. Touching both of its ends[\s\S]*can kill/);
    expect(cautionText(modelOf('halfshaft: 1\nname: new\n'))).toMatch(/not known from the file: treat it as more than 60 V/);
    expect(cautionsFor({ voltageClass: 'above B', voltage: '1.6 kV', shortCircuit: undefined, wait: undefined, isEmptied: true, hasMains: false, hasDisconnect: true })[1]!.text).toMatch(/Do not build it/);
  });
  it('promises no empty capacitors where nothing empties them', () => {
    expect(cautionText(modelOf(demo('two-string-coupe')))).toMatch(/count as charged for good/);
    expect(cautionText(modelOf(demo('bakery-van')))).toMatch(/computed 75\.\d s or less/);
  });
  it('gives the sheets their own titles', () => { for (const { name, title } of drawings) expect(setList[name].title).toBe(title); });
  it('reads the same aloud', () => { expect(plainText(coverDrawing.pages(modelOf(demo('bakery-van')))[0]!.text)).toMatch(/Bakery van|BAKERY VAN/); });
});
