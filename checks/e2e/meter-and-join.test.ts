/** Two probes on two points; two ports made one run. */
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually } from './desk.ts';
import { small } from './small-build.ts';

describeDesk('meter and joining', (open) => {
  it('reads between two named points, swaps the leads, keeps the readings', async () => {
    const { page } = await open({ text: small, at: 'high-voltage' });
    await drawn(page);
    await page.getByRole('button', { name: 'Meter', exact: true }).click();
    const panel = page.getByRole('region', { name: 'Meter' });
    for (const [lead, point] of [['red lead (+)', 'M1.pos'], ['black lead (−)', 'M1.neg']] as const) {
      await panel.getByRole('combobox', { name: lead }).fill(point);
      await panel.getByRole('combobox', { name: lead }).press('Enter');
    }
    const reads = async (): Promise<number> => Number(await panel.locator('[data-reads]').getAttribute('data-reads'));
    await eventually(reads).toBeGreaterThan(40);
    const there = await reads();
    await panel.getByText(/19 of 20 draws between/).waitFor();
    await panel.getByRole('button', { name: 'Swap the leads' }).click();
    await eventually(reads).toBeCloseTo(-there, 6);
    await panel.getByRole('region', { name: 'Readings of this session' }).getByRole('button', { name: 'M1.pos to M1.neg' }).waitFor();
    await panel.getByText('Only a meter does, tried on a known source').waitFor();
  });

  it('a probe is put where a point on the drawing is taken hold of', async () => {
    const { page } = await open({ text: small, at: 'high-voltage' });
    await drawn(page);
    await page.getByRole('button', { name: 'Meter', exact: true }).click();
    const point = page.locator('.drawing [data-point]').first();
    const name = await point.getAttribute('data-point');
    await point.evaluate((element) => (element as unknown as { focus: () => void }).focus());
    await page.keyboard.press('Enter');
    await eventually(() => page.getByRole('combobox', { name: 'red lead (+)' }).inputValue()).toBe(name);
  });

  it('joins two ports by name, refuses one without room, and says why', async () => {
    const { page, onDisk } = await open({ text: small });
    await drawn(page);
    const before = onDisk();
    await page.getByRole('button', { name: 'Add a part…' }).click();
    await page.getByRole('searchbox', { name: 'Kind of part' }).fill('hv fuse');
    await page.locator('button.kind').first().click();
    await page.getByLabel('name', { exact: true }).fill('F_new');
    await page.getByRole('button', { name: 'Add F_new' }).click();
    await eventually(onDisk).not.toBe(before);
    await page.getByRole('button', { name: 'Join two ports' }).click();
    const panel = page.getByRole('region', { name: 'Join two ports' });
    const end = async (label: string, point: string): Promise<void> => {
      await panel.getByRole('combobox', { name: label, exact: true }).fill(point);
      await panel.getByRole('combobox', { name: label, exact: true }).press('Enter');
    };
    await end('from', 'M2.pos2');
    await panel.getByText(/is no port|has no room/).first().waitFor();
    await panel.getByRole('combobox', { name: 'from', exact: true }).press('Escape');
    await end('from', 'F_new.in');
    await panel.getByRole('combobox', { name: 'to', exact: true }).fill('F_new');
    await page.getByRole('option', { name: /^F_new.out/ }).waitFor();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await eventually(() => panel.getByRole('combobox', { name: 'to', exact: true }).inputValue()).toBe('F_new.out');
    await panel.getByLabel('cut from').selectOption('hv50');
    await panel.getByLabel('length').fill('0.4 m measured');
    await panel.getByLabel('name').fill('H_new');
    await panel.getByRole('button', { name: 'Add the run' }).click();
    await page.getByRole('heading', { level: 2, name: 'H_new' }).waitFor();
    await eventually(onDisk).toMatch(/H_new: *\{ from: F_new\.in, to: F_new\.out, stock: hv50, length: 0\.4 m measured \}/);
    expect(await page.getByRole('region', { name: 'Join two ports' }).count()).toBe(0);
  });
});
