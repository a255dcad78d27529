/** The text drawer: the same build, typed. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually } from './desk.ts';
import { small } from './small-build.ts';

async function openText(page: Page): Promise<void> {
  await drawn(page);
  await page.getByRole('button', { name: 'Text', exact: true }).click();
  await page.locator('.cm-content').waitFor();
}
/** Puts the cursor behind a stretch of the text, by the drawer's own search. */
async function goTo(page: Page, words: string): Promise<void> {
  await page.locator('.cm-content').focus();
  await page.keyboard.press('Control+f');
  await page.locator('.cm-search input[name=search]').waitFor();
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  await page.locator('.cm-content').focus();
  await page.keyboard.press('ArrowRight');
}

describeDesk('the text', (open) => {
  it('typing changes the build; undo is the one of the desk', async () => {
    const { page, onDisk } = await open({ text: small });
    const before = onDisk();
    await openText(page);
    await goTo(page, 'name: Small van');
    await page.keyboard.type(' two');
    await eventually(() => page.getByRole('heading', { level: 1 }).textContent()).toBe('Small van two');
    await eventually(onDisk).toBe(before.replace('name: Small van', 'name: Small van two'));
    await page.keyboard.press('Control+z');
    await eventually(onDisk).toBe(before);
    expect(await page.locator('.cm-line', { hasText: /^name: / }).textContent()).toBe('name: Small van   # a comment that stays');
    await page.keyboard.press('Control+y');
    await eventually(() => page.locator('.cm-line', { hasText: /^name: / }).textContent()).toBe('name: Small van two   # a comment that stays');
  });

  it('completes keys, and says what is wrong in the margin', async () => {
    const { page, onDisk } = await open({ text: small });
    await openText(page);
    await goTo(page, 'measured_voltage: 47.92 V ±0.03 measured,');
    await page.keyboard.type(' not');
    await page.keyboard.press('Control+Space');
    await page.locator('.cm-tooltip-autocomplete').getByText('note', { exact: true }).waitFor();
    // the editor takes Enter for the list only when somebody may have read it
    await page.waitForTimeout(200);
    await page.keyboard.press('Enter');
    await page.keyboard.type('dry,');
    await eventually(onDisk).toContain('measured_voltage: 47.92 V ±0.03 measured, note: dry,');
    await goTo(page, 'wheelbase: 2.70 m');
    await page.keyboard.type('q');
    await page.locator('.cm-level-fix').first().waitFor();
    await eventually(() => page.locator('.cm-level-fix').first().getAttribute('aria-label')).toMatch(/wheelbase/);
  });

  it('shows what a line is about, and takes in edits of the card without moving the cursor', async () => {
    const { page } = await open({ text: small });
    await openText(page);
    await goTo(page, 'mass: 25.3 kg');
    await eventually(() => page.locator('.text-path').textContent()).toBe('parts.M1.mass');
    await page.keyboard.press('Control+Enter');
    const card = page.locator('#card');
    await page.getByRole('heading', { level: 2, name: 'M1', exact: true }).waitFor();
    await eventually(() => page.evaluate('document.activeElement?.dataset.path')).toBe('parts.M1.mass');
    await card.getByLabel('mass', { exact: true }).fill('30 kg measured');
    await card.getByLabel('mass', { exact: true }).press('Enter');
    await page.locator('.cm-line', { hasText: 'mass: 30 kg measured' }).waitFor();
    expect(await page.locator('.text-path').textContent()).toBe('parts.M1.mass');
    await card.getByRole('button', { name: 'To the text' }).first().click();
    await eventually(() => page.locator('.text-path').textContent()).toBe('parts.M1');
  });

  it('its height follows the arrow keys', async () => {
    const { page } = await open({ text: small });
    await openText(page);
    const edge = page.getByRole('separator', { name: 'Height of the text' });
    const before = Number(await edge.getAttribute('aria-valuenow'));
    await edge.press('ArrowUp');
    expect(Number(await edge.getAttribute('aria-valuenow'))).toBe(before + 40);
  });
});
