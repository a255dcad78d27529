/** The automatic check of axe-core on the card, the text, the tray, the meter and the panels, in both themes. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { brokenByDayAndNight, inOneLine } from './axe.ts';
import { describeDesk, drawn } from './desk.ts';
import { openCard } from './open-card.ts';
import { small } from './small-build.ts';

/** The drawing itself is looked at with the sheets. */
async function violations(page: Page, where: string): Promise<string[]> {
  return (await brokenByDayAndNight(page, { where: { exclude: [['.drawing']] } })).map((broken) => `${where}: ${inOneLine(broken)}`);
}

describeDesk('axe-core finds nothing', (open) => {
  it('on the pieces around the paper, by day and by night', async () => {
    const { page } = await open({ text: small, at: 'layout' });
    const card = await openCard(page, 'M1');
    await card.getByRole('button', { name: 'More about mass' }).click();
    await card.getByLabel('mass', { exact: true }).fill('31 kgg');
    await card.getByLabel('mass', { exact: true }).press('Enter');
    await card.getByRole('alert').waitFor();
    for (const fold of await card.getByText(/^Not given/).all()) await fold.click();
    const found = await violations(page, 'card');
    await card.getByRole('button', { name: 'What if…' }).first().click();
    await page.getByRole('article', { name: 'Alternative 1' }).getByLabel('M1 mass').fill('60 kg');
    await page.getByRole('article', { name: 'Alternative 1' }).getByLabel('M1 mass').press('Enter');
    await page.getByRole('region', { name: 'What if' }).getByText(/Numbers of this sheet|No finding/).waitFor();
    found.push(...await violations(page, 'tray'));
    await card.getByRole('button', { name: 'To the text' }).first().click();
    await page.locator('.cm-content').waitFor();
    found.push(...await violations(page, 'text'));
    await page.getByRole('button', { name: 'Close the text' }).click();
    await page.getByRole('button', { name: 'Join two ports' }).click();
    found.push(...await violations(page, 'join'));
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page.locator('.register button', { hasText: 'High voltage' }).click();
    await drawn(page);
    await page.getByRole('button', { name: 'Meter', exact: true }).click();
    await page.getByRole('combobox', { name: 'red lead (+)' }).fill('M1.pos');
    await page.getByRole('combobox', { name: 'red lead (+)' }).press('Enter');
    found.push(...await violations(page, 'meter'));
    await page.getByRole('button', { name: 'Add a part…' }).click();
    await page.getByRole('searchbox', { name: 'Kind of part' }).fill('contactor');
    found.push(...await violations(page, 'add'));
    await page.getByRole('button', { name: /^Contactor / }).click();
    found.push(...await violations(page, 'new part'));
    expect(found).toEqual([]);
  });
});
