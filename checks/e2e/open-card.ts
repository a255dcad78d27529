/** The way to the card of a part, by keyboard on the drawing. */
import type { Locator, Page } from 'playwright-core';
import { drawn } from './desk.ts';

/** Opens the card of a part from the layout. */
export async function openCard(page: Page, part: string): Promise<Locator> {
  await drawn(page);
  await page.locator(`.drawing [data-subject="parts.${part}"]`).first().evaluate((element) => (element as unknown as { focus: () => void }).focus());
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { level: 2, name: part, exact: true }).waitFor();
  return page.locator('#card');
}
