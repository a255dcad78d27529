/** From the sheet of a procedure to its steps one at a time, and back to the sheet. */
import { it } from 'vitest';
import { describeDesk } from './desk.ts';
import { small } from './small-build.ts';

describeDesk('the sheet of the first power-up', (open) => {
  it('leads to the steps one at a time; going back leaves them for the sheet', async () => {
    const { page } = await open({ text: small, at: 'power-up' });
    await page.getByRole('button', { name: 'Go through it step by step' }).click();
    await page.getByText(/^Step 1 of/).waitFor();
    await page.goBack();
    await page.getByRole('button', { name: 'Go through it step by step' }).waitFor();
  });
});
