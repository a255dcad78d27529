/** The automatic check of axe-core on every sheet, in both themes, and on what can be laid over them. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { drawings } from '../../sheets/drawings.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import { aboutColours, brokenByDayAndNight, brokenRules, inOneLine } from './axe.ts';
import type { Broken } from './axe.ts';
import { describeDesk, drawn } from './desk.ts';

/**
 * In a drawing the words of one label are set in several lines, which the rule about labels and their visible text cannot join; it is
 * asked of everything else.
 */
function told(broken: readonly Broken[]): string[] {
  return broken.map(({ places, ...rest }) => ({ ...rest, places: rest.rule === 'label-content-name-mismatch' ? places.filter((html) => !html.startsWith('<g')) : places }))
    .filter(({ places }) => places.length > 0).map(inOneLine);
}
const violations = async (page: Page): Promise<string[]> => told(await brokenRules(page));

/** Drawn of the van: the crowded ones. All others of the small car. */
const ofVan: ReadonlySet<SheetName> = new Set(['layout', 'high-voltage']);

describeDesk('axe-core finds nothing', (open) => {
  it.each([['any other sheet', false], ['the crowded sheets', true]] as const)('on %s, by day and by night', async (_, isOfVan) => {
    const found: string[] = [];
    const { page } = await open(isOfVan ? {} : { example: 'orchard-hauler' });
    await drawn(page);
    for (const { name, title } of drawings.filter((drawing) => ofVan.has(drawing.name) === isOfVan)) {
      await page.locator('.register button', { hasText: title }).click();
      await page.getByRole('region', { name: `Sheet ${title}` }).waitFor({ timeout: 90_000 });
      await drawn(page);
      found.push(...told(await brokenByDayAndNight(page, { only: aboutColours })).map((line) => `${name}: ${line}`));
    }
    expect(found).toEqual([]);
  }, 240_000);

  it('on the first screen, in words, in dialogs and in the guided start', async () => {
    const { page } = await open({ example: 'orchard-hauler', isFirst: true });
    await page.getByRole('heading', { name: 'Before you start' }).waitFor();
    const found = await violations(page);
    await page.getByRole('button', { name: 'I have read this' }).click();
    await drawn(page);
    await page.getByRole('button', { name: 'Read in words' }).click();
    found.push(...await violations(page));
    for (const item of ['Units…', 'Print…']) {
      await page.getByRole('button', { name: 'More', exact: true }).click();
      await page.getByRole('menuitem', { name: item }).click();
      await page.getByRole('dialog').waitFor();
      found.push(...await violations(page));
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    await page.getByRole('button', { name: 'More', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Guided start…' }).click();
    await page.getByRole('heading', { name: 'Vehicle' }).waitFor();
    found.push(...await violations(page));
    expect(found).toEqual([]);
  });
});
