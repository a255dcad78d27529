/** The set on paper: one PDF page a drawing page, of the size that was chosen. */
import { expect, it } from 'vitest';
import { describeDesk, drawn } from './desk.ts';

/** Page sizes in a PDF [mm]. */
function sizesIn(pdf: Buffer): string[] {
  return [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map(([, width, height]) => `${Math.round(Number(width) / 72 * 25.4)} x ${Math.round(Number(height) / 72 * 25.4)}`);
}

describeDesk('printing', (open) => {
  it('puts the shown sheet on A4 and the whole set on A3, without anything of the screen', async () => {
    // the small car: its slow sheets are made in seconds
    const { page } = await open({ example: 'orchard-hauler' });
    await drawn(page);
    // a browser without a window has no printer to ask
    await page.evaluate('window.print = () => { window.asked = (window.asked ?? 0) + 1; }');
    const printed = async (what: string, paper: RegExp, button: string): Promise<Buffer> => {
      await page.getByRole('button', { name: 'More', exact: true }).click();
      await page.getByRole('menuitem', { name: 'Print…' }).click();
      await page.getByRole('radio', { name: what, exact: true }).check();
      await page.getByRole('radio', { name: paper }).check();
      await page.evaluate('window.asked = 0');
      await page.getByRole('button', { name: button }).click();
      await expect.poll(() => page.evaluate('window.asked'), { timeout: 90_000, interval: 100 }).toBe(1);
      const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
      await page.evaluate("dispatchEvent(new Event('afterprint'))");
      await page.locator('.print-job').waitFor({ state: 'detached' });
      return pdf;
    };
    const pages = await page.locator('#page-choice option').count();
    const sheet = sizesIn(await printed('this sheet', /^A4/, 'Print this sheet'));
    expect(sheet).toEqual(Array.from({ length: Math.max(1, pages) }, () => '297 x 210'));
    const set = sizesIn(await printed('the set', /^A3/, 'Print the set'));
    const sheets = await page.locator('.register li').count();
    expect(set.length).toBeGreaterThanOrEqual(sheets);
    expect([...new Set(set)]).toEqual(['420 x 297']);
  }, 240_000);
});
