/** Alternatives beside each other; the file changes only when one is kept. */
import { expect, it } from 'vitest';
import { describeDesk, eventually } from './desk.ts';
import { openCard } from './open-card.ts';
import { small } from './small-build.ts';

describeDesk('what if', (open) => {
  it('compares, drops, keeps as one step', async () => {
    const { page, onDisk } = await open({ text: small, at: 'mass' });
    const before = onDisk();
    const card = await openCard(page, 'M1');
    await card.getByRole('button', { name: 'More about mass' }).click();
    await card.getByRole('button', { name: 'What if…' }).click();
    await card.getByRole('button', { name: 'What if…' }).click();
    const tray = page.getByRole('region', { name: 'What if' });
    const [first, second] = [tray.getByRole('article', { name: 'Alternative 1' }), tray.getByRole('article', { name: 'Alternative 2' })];
    await first.getByLabel('M1 mass').fill('60 kg measured');
    await first.getByLabel('M1 mass').press('Enter');
    await second.getByLabel('M1 mass').fill('61 kgg');
    await second.getByLabel('M1 mass').press('Enter');
    await first.getByText('Numbers of this sheet').waitFor();
    await second.getByRole('alert').filter({ hasText: 'did you mean kg' }).waitFor();
    expect(onDisk()).toBe(before);
    await second.getByRole('button', { name: 'Drop' }).click();
    await second.waitFor({ state: 'detached' });
    await first.getByRole('button', { name: 'Keep alternative 1' }).click();
    await eventually(onDisk).toBe(before.replace('mass: 25.3 kg ±0.2 measured, size: 590', 'mass: 60 kg measured, size: 590'));
    await tray.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Undo M1 mass' }).click();
    await eventually(onDisk).toBe(before);
  });
});
