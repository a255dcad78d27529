/** The way through the screen: open, see what is next, go from a finding to drawing, card and text. */
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually } from './desk.ts';
import { small } from './small-build.ts';

describeDesk('the desk', (open) => {
  it('shows the build, the next thing and the sheet, in how long', async () => {
    const { page } = await open();
    await drawn(page);
    const first = await page.evaluate<number>('performance.now()');
    console.log(`first drawing of the van after ${Math.round(first)} ms`);
    expect(await page.title()).toBe('Bakery van – Halfshaft');
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Bakery van');
    expect((await page.locator('#next-thing').textContent())?.length).toBeGreaterThan(30);
    await page.locator('.drawing svg').getByText('Bakery van').first().waitFor();
    expect(await page.locator('.register [aria-current=page]').textContent()).toContain('Cover');
  });

  it('draws by itself where the server makes no studies, or cannot make this one', async () => {
    const { page } = await open({ example: 'orchard-hauler', isAlone: true });
    await drawn(page);
    const asked = (of: typeof page) => of.evaluate<number>("performance.getEntriesByType('resource').filter(({ name }) => name.endsWith('/api/study')).length");
    expect(await asked(page)).toBe(0);
    const other = await open({ example: 'orchard-hauler' });
    await drawn(other.page);
    expect(await asked(other.page)).toBe(1);
    await other.page.route('**/api/study', (route) => route.abort());
    await other.page.reload();
    await drawn(other.page);
    // the browser tells of a request that did not arrive
    other.complaints.splice(0);
  });

  it('opens at the sheet that the address names, and goes back', async () => {
    const { page } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    const names = await page.locator('.register .sheet-title').allTextContents();
    const [, second] = names;
    if (second === undefined) return;
    await page.locator('.register button', { hasText: second }).click();
    await page.getByRole('region', { name: `Sheet ${second}` }).waitFor();
    await page.goBack();
    await page.getByRole('region', { name: 'Sheet Cover' }).waitFor();
  });

  it('goes from the next thing to its card', async () => {
    const { page } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    await page.getByRole('button', { name: 'Show it' }).click();
    await page.locator('#card').waitFor();
  });

  it('chooses findings by words and subject, and goes from one to card, text and drawing', async () => {
    const { page } = await open({ example: 'two-string-coupe' });
    await drawn(page);
    const rows = page.locator('.finding');
    const all = await rows.count();
    await page.getByRole('searchbox', { name: 'Words in the findings' }).fill('fuse');
    await eventually(() => rows.count()).not.toBe(all);
    expect(await rows.count()).toBeGreaterThan(0);
    await page.getByRole('searchbox', { name: 'Words in the findings' }).fill('');
    await page.getByRole('combobox', { name: 'Subject of the findings' }).selectOption('high-voltage');
    await eventually(() => page.evaluate("[...new Set([...document.querySelectorAll('.finding')].map((row) => row.dataset.code.split('.')[0]))]")).toEqual(['high-voltage']);
    const first = rows.first();
    await first.getByRole('button', { name: /^card / }).click();
    await page.locator('#card').waitFor();
    await first.getByRole('button', { name: /^text/ }).click();
    await page.getByRole('region', { name: 'Text of the build' }).waitFor();
    await first.getByRole('button', { name: /^sheet / }).click();
    await drawn(page);
  });

  it('draws behind the screen, and tells of each finding how sure it is', async () => {
    const { page } = await open({ text: small, hasDraws: true });
    await drawn(page);
    const sure = page.locator('.finding .facts', { hasText: /holds in (?:over |under )?\d+ % of draws/ });
    expect(await sure.count()).toBe(0);
    await sure.first().waitFor();
  });

  it('shows what holds on request', async () => {
    const { page } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    await page.getByRole('button', { name: /^Show what holds/ }).click();
    await page.getByRole('heading', { name: /^Holds/ }).waitFor();
    // a thousand rows are not drawn at once
    expect(await page.locator('.finding').count()).toBeLessThanOrEqual(30);
    await page.getByRole('button', { name: /^Show 120 more/ }).click();
    await eventually(() => page.locator('.finding').count()).toBe(150);
  });

  it('marks the numbers that a change has changed until they were looked at', async () => {
    const { page, onDisk, writeOnDisk } = await open({ at: 'layout' });
    await drawn(page);
    writeOnDisk(onDisk().replace('mass: 25.3 kg', 'mass: 29.3 kg'));
    const marked = page.locator('.drawing [data-changed]');
    await eventually(() => marked.count()).toBeGreaterThan(0);
    await page.locator('.register [aria-current=page] .sheet-changed').waitFor();
    const before = await marked.count();
    await marked.first().hover();
    await eventually(() => marked.count()).toBeLessThan(before);
    await page.getByRole('button', { name: /changed: all seen$/ }).click();
    await eventually(() => marked.count()).toBe(0);
  });

  it('turns to the page on which what is selected is drawn', async () => {
    const { page } = await open({ at: 'low-voltage' });
    await drawn(page);
    const first = await page.locator('.drawing [data-subject^="parts."]').first().getAttribute('data-subject');
    const pages = await page.locator('#page-choice option').count();
    await page.locator('#page-choice').selectOption(String(pages - 1));
    await page.locator(`.drawing:not(:has([data-subject="${first}"]))`).waitFor();
    // by the next thing, by a finding or by a card: all go this way
    await page.locator('.register button', { hasText: 'Cover' }).click();
    await page.getByRole('region', { name: 'Sheet Cover' }).waitFor();
    await page.getByRole('searchbox', { name: 'Words in the findings' }).fill('K_neg coil');
    await page.locator('.finding').first().getByRole('button', { name: /^sheet Low voltage/ }).click();
    await page.getByRole('region', { name: 'Sheet Low voltage' }).waitFor();
    await page.locator('.drawing [data-subject^="parts.K_neg"]').first().waitFor();
  });

  it('gives the sheet in words, with headings and tables', async () => {
    const { page } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    await page.getByRole('button', { name: 'Read in words' }).click();
    await page.getByRole('heading', { name: 'Cover, in words' }).waitFor();
    await page.getByRole('button', { name: 'Back to the drawing' }).click();
    await drawn(page);
  });
});
