/** The automatic check of axe-core on every sheet, in both themes, and on what can be laid over them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { drawings } from '../../sheets/drawings.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import { describeDesk, drawn } from './desk.ts';

const axe = readFileSync(join(import.meta.dirname, '../../node_modules/axe-core/axe.min.js'), 'utf8');

/**
 * Rule, how many places, and the first of them. In a drawing the words of one label are set in several lines, which the rule about
 * labels and their visible text cannot join; it is asked of everything else.
 */
async function violations(page: Page, only?: string): Promise<string[]> {
  await page.evaluate(`window.axe === undefined && (() => { ${axe} })()`);
  return page.evaluate(`axe.run(document, { resultTypes: ['violations']${only === undefined ? '' : `, runOnly: ['${only}']`} }).then(({ violations }) => violations.map(({ id, nodes }) => ({ id, nodes: id === 'label-content-name-mismatch' ? nodes.filter(({ html }) => !html.startsWith('<g')) : nodes })).filter(({ nodes }) => nodes.length > 0).map(({ id, nodes }) => id + ' x' + nodes.length + ': ' + nodes[0].html.slice(0, 200) + ' ' + nodes[0].failureSummary.replace(/\\s+/g, ' ').slice(0, 200)))`);
}

/** Drawn of the van, by day: the crowded ones. All others, and all by night, of the small car. */
const ofVan: ReadonlySet<SheetName> = new Set(['layout', 'high-voltage']);

describeDesk('axe-core finds nothing', (open) => {
  for (const theme of ['light', 'dark'] as const) {
    // by night only the colours differ
    it(`on any sheet, ${theme}`, async () => {
      const found: string[] = [];
      for (const isOfVan of theme === 'dark' ? [false] : [false, true]) {
        const { page } = await open({ theme, ...(isOfVan ? {} : { example: 'orchard-hauler' }) });
        await drawn(page);
        for (const { name, title } of drawings.filter((drawing) => theme === 'dark' || ofVan.has(drawing.name) === isOfVan)) {
          await page.locator('.register button', { hasText: title }).click();
          await page.getByRole('region', { name: `Sheet ${title}` }).waitFor({ timeout: 90_000 });
          await drawn(page);
          found.push(...(await violations(page, theme === 'dark' ? 'color-contrast' : undefined)).map((line) => `${name}: ${line}`));
        }
      }
      expect(found).toEqual([]);
    }, 240_000);
  }

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
