/** Why does it do nothing: the conversation on the bench, on the small demo car, by names as a screen reader has them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually } from './desk.ts';

const axe = readFileSync(join(import.meta.dirname, '../../node_modules/axe-core/axe.min.js'), 'utf8');

describeDesk('fault finding on the bench', (open) => {
  it('takes a symptom and what was seen, ranks, says what to look at next, and takes back', async () => {
    const { page, onDisk } = await open({ example: 'orchard-hauler', at: 'low-voltage' });
    await drawn(page);
    const before = onDisk();
    await page.getByRole('button', { name: 'More' }).click();
    await page.getByRole('menuitem', { name: /^Why does it do nothing/ }).click();
    const panel = page.getByRole('region', { name: 'Fault finding' });
    await panel.getByLabel('no contactor clicks').check({ timeout: 60_000 });
    const next = panel.getByRole('region', { name: 'Next' });
    await next.waitFor({ timeout: 60_000 });
    await eventually(() => panel.locator('.causes li').count()).toBeGreaterThan(3);
    // the fuse of the 12 V battery has blown: nothing behind it has a voltage
    await panel.getByText('Something else that was seen').click();
    await panel.getByLabel('written as').fill('F_b12.a-chassis=12.6');
    await panel.getByLabel('written as').press('Enter');
    await panel.getByText(/the value is not understood/).waitFor();
    for (const seen of ['F_b12.a-chassis=12.6 V', 'F_b12.b-chassis=0 V']) {
      await panel.getByLabel('written as').fill(seen);
      await panel.getByLabel('written as').press('Enter');
      await panel.getByRole('button', { name: new RegExp(`^Take back: ${seen.split('=')[0]}`) }).waitFor();
    }
    const found = panel.getByRole('region', { name: /^(Found|It may be)$/ }).first();
    await eventually(() => found.textContent()).toMatch(/F_b12/);
    await page.evaluate(`(() => { ${axe} })()`);
    expect(await page.evaluate<string[]>("axe.run(document.querySelector('.bench'), { resultTypes: ['violations'] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes[0].html.slice(0, 100) + ' ' + nodes[0].failureSummary))")).toEqual([]);
    await panel.getByRole('button', { name: /^Take back: no contactor clicks/ }).click();
    await eventually(() => panel.getByLabel('no contactor clicks').isChecked()).toBe(false);
    expect(onDisk()).toBe(before);
  });
});
