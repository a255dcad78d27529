/** Different people, different screens: cautions, themes, units, a phone, a keyboard alone. */
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually } from './desk.ts';

describeDesk('people', (open) => {
  it('read the cautions before anything else, once; they stay one click away', async () => {
    const { page } = await open({ example: 'orchard-hauler', isFirst: true });
    await page.getByRole('heading', { name: 'Before you start' }).waitFor();
    expect(await page.locator('.drawing').count()).toBe(0);
    await page.getByRole('button', { name: 'I have read this' }).press('Enter');
    await drawn(page);
    await page.reload();
    await drawn(page);
    await page.getByRole('button', { name: 'Cautions' }).click();
    await page.getByRole('dialog', { name: 'Cautions' }).getByText('Only a meter shows that a circuit is dead.').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('get paper or blueprint as their machine says, until they choose; the choice is remembered', async () => {
    const { page } = await open({ example: 'orchard-hauler', theme: 'dark' });
    await drawn(page);
    const theme = (): Promise<unknown> => page.evaluate('document.documentElement.dataset.theme');
    const sheet = (): Promise<string | null> => page.locator('.drawing svg > rect').first().getAttribute('fill');
    expect(await theme()).toBe('blueprint');
    const night = await sheet();
    await page.getByRole('button', { name: 'More', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Paper', exact: true }).click();
    await eventually(theme).toBe('paper');
    expect(await sheet()).not.toBe(night);
    await page.reload();
    await drawn(page);
    expect(await theme()).toBe('paper');
  });

  it('see the units they like, and the file keeps its own', async () => {
    const { page, onDisk } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    const before = onDisk();
    await page.getByRole('button', { name: 'More', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Units…' }).click();
    await page.getByRole('radio', { name: 'imperial' }).check();
    await page.getByRole('combobox', { name: 'unit of length' }).selectOption('cm');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.locator('.drawing').getByText(/\d lb$/).first().waitFor();
    await page.reload();
    await page.locator('.drawing').getByText(/\d lb$/).first().waitFor();
    expect(onDisk()).toBe(before);
    // nothing was edited, so nothing is marked
    expect(await page.locator('.drawing [data-changed]').count()).toBe(0);
  });

  it('reach everything on a phone, without moving the page sideways', async () => {
    const { page } = await open({ viewport: { width: 360, height: 740 }, hasTouch: true });
    await drawn(page);
    const overflow = (): Promise<number> => page.evaluate('document.documentElement.scrollWidth - innerWidth');
    expect(await overflow()).toBeLessThanOrEqual(0);
    for (const name of ['Undo', 'Text', 'Cautions', 'More', 'Larger', 'Fit', 'Read in words', 'Add a part…']) {
      const control = page.getByRole('button', { name, exact: true });
      await control.scrollIntoViewIfNeeded();
      const box = await control.boundingBox();
      expect(box && box.x >= 0 && box.x + box.width <= 360, `${name} lies within the screen`).toBe(true);
    }
    const width = async (): Promise<number> => (await page.locator('.paper').boundingBox())?.width ?? 0;
    const fitted = await width();
    await page.getByRole('button', { name: 'Larger', exact: true }).click();
    await eventually(width).toBeGreaterThan(fitted * 1.2);
    expect(await overflow()).toBeLessThanOrEqual(0);
    await page.locator('.finding').first().scrollIntoViewIfNeeded();
    await page.locator('.finding').first().getByRole('button', { name: /^card / }).click();
    await page.locator('#card').waitFor();
    expect(await overflow()).toBeLessThanOrEqual(0);
  });

  it('need no pointer: from the head over the register into the drawing, to a card and back', async () => {
    const { page } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    const focused = (script: string): Promise<unknown> => page.evaluate(`(() => { const at = document.activeElement; return ${script}; })()`);
    for (let steps = 0; steps < 60 && !(await focused("at.classList.contains('paper')")); steps++) await page.keyboard.press('Tab');
    expect(await focused("at.getAttribute('aria-label')")).toMatch(/^Drawing Cover/);
    await page.keyboard.press('ArrowRight');
    const first = await focused("at.getAttribute('data-subject')");
    expect(first).not.toBeNull();
    await page.locator('.overlay rect').first().waitFor();
    await page.keyboard.press('ArrowDown');
    expect(await focused("at.getAttribute('data-subject')")).not.toBeNull();
    await page.keyboard.press('Enter');
    await page.locator('#card').waitFor();
    await page.keyboard.press('Escape');
    expect(await focused("at.classList.contains('paper')")).toBe(true);
    // one stop: the next Tab leaves the drawing
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Tab');
    expect(await focused("at.closest('.paper') === null")).toBe(true);
  });
});
