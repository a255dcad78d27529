/** One file, two editors: what others write comes in, what is done here goes out, and where both meet nothing is lost. */
import { expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { describeDesk, drawn, eventually, saved } from './desk.ts';

const renamed = (text: string, name: string): string => text.replace(/^name: .*$/m, `name: ${name}`);
const heading = (page: Page): Promise<string | null> => page.getByRole('heading', { level: 1 }).textContent();

describeDesk('the file and the screen', (open) => {
  it('takes in what is written on disk as a step; undo and redo go to the file', async () => {
    const { page, onDisk, writeOnDisk } = await open();
    await drawn(page);
    const before = onDisk();
    writeOnDisk(renamed(before, 'Milk van'));
    await eventually(() => heading(page)).toBe('Milk van');
    await page.getByRole('button', { name: 'Undo change on disk' }).click();
    await eventually(() => heading(page)).toBe('Bakery van');
    await saved(page);
    await eventually(onDisk).toBe(before);
    await page.keyboard.press('Control+Shift+z');
    await eventually(() => heading(page)).toBe('Milk van');
    await eventually(onDisk).toBe(renamed(before, 'Milk van'));
  });

  it('puts changes in different lines together', async () => {
    const { page, onDisk, writeOnDisk, complaints } = await open();
    await drawn(page);
    const before = onDisk();
    writeOnDisk(renamed(before, 'Milk van'));
    await eventually(() => heading(page)).toBe('Milk van');
    const release = await holdSaves(page);
    await page.getByRole('button', { name: 'Undo change on disk' }).click();
    await eventually(() => heading(page)).toBe('Bakery van');
    writeOnDisk(`${renamed(before, 'Milk van')}# a note from outside\n`);
    await release();
    await eventually(onDisk).toBe(`${before}# a note from outside\n`);
    await saved(page);
    refusedSaves(complaints);
  });

  it('shows both where the same line was changed, keeps both until chosen, and can be put off', async () => {
    const { page, onDisk, writeOnDisk, complaints } = await open();
    await drawn(page);
    const before = onDisk();
    writeOnDisk(renamed(before, 'Milk van'));
    await eventually(() => heading(page)).toBe('Milk van');
    const release = await holdSaves(page);
    await page.getByRole('button', { name: 'Undo change on disk' }).click();
    await eventually(() => heading(page)).toBe('Bakery van');
    writeOnDisk(renamed(before, 'Egg van'));
    await release();
    const dialog = page.getByRole('dialog', { name: 'Changed here and on disk' });
    await dialog.waitFor();
    expect(await dialog.locator('pre').allTextContents()).toEqual(expect.arrayContaining(['name: Bakery van', 'name: Egg van']));
    await dialog.getByRole('button', { name: 'Not now' }).click();
    await page.getByText('not saved: changed here and on disk').waitFor();
    expect(onDisk()).toBe(renamed(before, 'Egg van'));
    await page.getByRole('button', { name: 'Choose', exact: true }).click();
    // by keyboard: the second of the three choices
    await dialog.getByRole('radio').first().focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('ArrowDown');
    await dialog.getByRole('button', { name: 'Put together as chosen' }).press('Enter');
    await eventually(() => heading(page)).toBe('Egg van');
    await saved(page);
    expect(onDisk()).toBe(renamed(before, 'Egg van'));
    // what was on the screen is one undo away
    await page.getByRole('button', { name: 'Undo choice between screen and disk' }).click();
    await eventually(() => heading(page)).toBe('Bakery van');
    refusedSaves(complaints);
  });

  it('keeps working while the server is away, and says so', async () => {
    const { page, server, onDisk, writeOnDisk, complaints } = await open();
    await drawn(page);
    const before = onDisk();
    writeOnDisk(renamed(before, 'Milk van'));
    await eventually(() => heading(page)).toBe('Milk van');
    await server.close();
    await page.getByRole('button', { name: 'Undo change on disk' }).click();
    await eventually(() => heading(page)).toBe('Bakery van');
    await page.getByText(/^▲ not saved: the program that keeps the file does not answer/).waitFor();
    expect(await page.evaluate("JSON.parse(Object.entries(localStorage).find(([key]) => key.startsWith('halfshaft.unsaved'))[1]).text")).toBe(before);
    complaints.splice(0, complaints.length, ...complaints.filter((line) => !/ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED_ENCODING|ERR_CONNECTION_RESET/.test(line)));
  });

  it('says that the file is gone, keeps the text, and writes it anew when asked', async () => {
    const { page, onDisk, folder } = await open();
    await drawn(page);
    const before = onDisk();
    const { rmSync } = await import('node:fs');
    rmSync(`${folder}/build.yaml`);
    await page.getByText('the file is gone from its folder').waitFor();
    await page.getByRole('button', { name: 'Write it anew' }).click();
    await saved(page);
    expect(onDisk()).toBe(before);
  });
});

/** Saves wait at the door until the returned function lets them through. */
async function holdSaves(page: Page): Promise<() => Promise<void>> {
  let open: () => void = () => undefined;
  const opened = new Promise<void>((resolve) => { open = resolve; });
  await page.route('**/api/build', async (route) => {
    if (route.request().method() === 'PUT') await opened;
    await route.continue();
  });
  return async () => { open(); await page.waitForTimeout(50); await page.unroute('**/api/build'); };
}

/** The browser complains about the refusal that these tests bring about. */
function refusedSaves(complaints: string[]): void {
  complaints.splice(0, complaints.length, ...complaints.filter((line) => !/status of 412/.test(line)));
}
