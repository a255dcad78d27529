/** The card: every value can be changed where it stands, what cannot be used is kept as typed, things can be added, copied, renamed and taken out. */
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually, saved } from './desk.ts';
import { openCard } from './open-card.ts';
import { small } from './small-build.ts';

describeDesk('the card', (open) => {
  it('changes a number and only its characters; undo takes it back', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const before = onDisk();
    const card = await openCard(page, 'M1');
    const mass = card.getByLabel('mass', { exact: true });
    expect(await mass.inputValue()).toBe('25.3 kg ±0.2 measured');
    await mass.fill('31.5 kg ±0.5 label');
    await mass.press('Enter');
    await eventually(onDisk).toBe(before.replace('mass: 25.3 kg ±0.2 measured, size: 590', 'mass: 31.5 kg ±0.5 label, size: 590'));
    await page.getByRole('button', { name: 'Undo mass of M1' }).click();
    await eventually(onDisk).toBe(before);
    await eventually(() => mass.inputValue()).toBe('25.3 kg ±0.2 measured');
  });

  it('has the consequences of a number worked out while it is typed; the file waits for Enter', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const before = onDisk();
    await page.evaluate(`globalThis.asked = []; const post = Worker.prototype.postMessage; Worker.prototype.postMessage = function (message, ...more) { if (message.question !== undefined) globalThis.asked.push(message); return post.call(this, message, ...more); };`);
    const mass = (await openCard(page, 'M1')).getByLabel('mass', { exact: true });
    const studiesOf = async (text: string): Promise<number> => (await page.evaluate('globalThis.asked') as { question: string; text: string }[]).filter((asked) => asked.question === 'study' && asked.text.includes(text)).length;
    await mass.fill('');
    await mass.pressSequentially('31.5 kg', { delay: 60 });
    await eventually(() => studiesOf('mass: 31.5 kg')).toBe(1);
    expect(onDisk()).toBe(before);
    await mass.press('Enter');
    await saved(page);
    await drawn(page);
    expect(onDisk()).toContain('mass: 31.5 kg');
    // what lies on the desk now was begun before Enter, and once
    const sheet = (asked: { sheet?: string }): boolean => asked.sheet === 'layout';
    expect((await page.evaluate('globalThis.asked') as { question: string; text: string; sheet?: string }[]).filter((asked) => asked.question === 'study' && asked.text.includes('mass: 31.5 kg') && sheet(asked))).toHaveLength(1);
  });

  it('keeps what cannot be read, says what is expected, and leaves the file alone; Escape restores', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const before = onDisk();
    const card = await openCard(page, 'M1');
    const mass = card.getByLabel('mass', { exact: true });
    await mass.fill('31 kgg');
    await mass.press('Enter');
    await card.getByRole('alert').filter({ hasText: 'did you mean kg' }).waitFor();
    expect(await mass.inputValue()).toBe('31 kgg');
    expect(await mass.getAttribute('aria-invalid')).toBe('true');
    await mass.press('Escape');
    expect(await mass.inputValue()).toBe('25.3 kg ±0.2 measured');
    expect(await page.locator('#card').count()).toBe(1);
    await page.waitForTimeout(300);
    expect(onDisk()).toBe(before);
  });

  it('changes tolerance and basis without the number, and one coordinate with its unit kept', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const card = await openCard(page, 'M1');
    await card.getByRole('button', { name: 'More about mass' }).click();
    await card.getByLabel('basis of mass', { exact: true }).selectOption('label');
    await eventually(onDisk).toContain('mass: 25.3 kg ±0.2 label, size: 590');
    await card.getByLabel('tolerance of mass', { exact: true }).fill('2 %');
    await card.getByLabel('tolerance of mass', { exact: true }).press('Enter');
    await eventually(onDisk).toContain('mass: 25.3 kg ±2 % label, size: 590');
    const at = card.getByRole('group', { name: 'at', exact: true });
    await at.getByLabel('z', { exact: true }).fill('272');
    await at.getByLabel('z', { exact: true }).press('Enter');
    await eventually(onDisk).toContain('mass: 25.3 kg ±2 % label, size: 590 x 225 x 110 mm measured, at: [1040, -130, 272 mm ±10 measured]');
  });

  it('gives a value that was not there, and takes it out again', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const before = onDisk();
    const card = await openCard(page, 'M1');
    await card.getByText(/^Not given \(/).click();
    await card.getByLabel('note', { exact: true }).fill('from the yard, dry');
    await card.getByLabel('note', { exact: true }).press('Enter');
    await eventually(onDisk).toMatch(/M1: \{[^}]*note: "?from the yard, dry"? \}/s);
    await card.getByRole('button', { name: 'More about note' }).click();
    await card.getByRole('button', { name: 'Take it out' }).click();
    await eventually(onDisk).toBe(before);
  });

  it('renames everywhere', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const before = onDisk();
    const card = await openCard(page, 'M1');
    await card.getByRole('button', { name: 'Rename…' }).click();
    await card.getByLabel('new name of M1').fill('MOD_A');
    await card.getByLabel('new name of M1').press('Enter');
    await page.getByRole('heading', { level: 2, name: 'MOD_A' }).waitFor();
    await eventually(onDisk).toMatch(/from: MOD_A\.|to: MOD_A\./);
    expect(onDisk()).not.toMatch(/M1/);
    await page.getByRole('button', { name: 'Undo M1 renamed to MOD_A' }).click();
    await eventually(onDisk).toBe(before);
  });

  it('copies without runs, and asks before runs go with a part', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    const before = onDisk();
    await openCard(page, 'M2');
    await page.locator('#card').getByRole('button', { name: 'Duplicate' }).click();
    await page.getByRole('heading', { level: 2, name: 'M4', exact: true }).waitFor();
    await eventually(onDisk).toMatch(/^ {2}M4: \{ kind: battery_module/m);
    await page.getByRole('button', { name: 'Undo copy of M2' }).click();
    await eventually(onDisk).toBe(before);

    await openCard(page, 'M3');
    await page.locator('#card').getByRole('button', { name: 'Delete…' }).click();
    await page.getByRole('group', { name: 'Delete M3?' }).getByRole('button', { name: /^Delete M3/ }).click();
    await eventually(onDisk).not.toMatch(/M3/);
    await page.getByRole('button', { name: 'Undo M3 taken out' }).click();
    await eventually(onDisk).toBe(before);
  });

  it('adds a part of a kind by keyboard alone', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    await drawn(page);
    await page.getByRole('button', { name: 'Add a part…' }).press('Enter');
    await page.getByRole('searchbox', { name: 'Kind of part' }).fill('contactor');
    await eventually(() => page.locator('button.kind').count()).toBeLessThan(6);
    await page.getByRole('button', { name: /^Contactor / }).press('Enter');
    await page.getByLabel('rating', { exact: true }).fill('400 A label');
    await page.getByLabel('voltage rating', { exact: true }).fill('900 V label');
    await page.getByLabel('name', { exact: true }).fill('K_extra');
    await page.getByRole('button', { name: 'Add K_extra' }).press('Enter');
    await page.getByRole('heading', { level: 2, name: 'K_extra' }).waitFor();
    await eventually(onDisk).toMatch(/K_extra: *\{ kind: contactor, rating: 400 A label, voltage_rating: 900 V label \}|K_extra:\n +kind: contactor\n +rating: 400 A label\n +voltage_rating: 900 V label/);
    await saved(page);
  });

  it('adds a stock and a mode, whose cards ask for the rest', async () => {
    const { page, onDisk } = await open({ text: small, at: 'cables' });
    await drawn(page);
    await page.getByRole('button', { name: 'Add a part…' }).press('Enter');
    await page.getByRole('searchbox', { name: 'Kind of part' }).fill('stock wire');
    await page.getByRole('button', { name: /^Stock: wire/ }).press('Enter');
    await page.getByLabel('name', { exact: true }).fill('signal');
    await page.getByRole('button', { name: 'Add signal' }).press('Enter');
    await page.getByRole('heading', { level: 2, name: 'signal' }).waitFor();
    await page.locator('#card').getByLabel('conductor area', { exact: true }).fill('0.75 mm²');
    await page.keyboard.press('Enter');
    await eventually(onDisk).toMatch(/signal:[^]{0,40}kind: wire[^]{0,60}conductor_area: 0\.75 mm²/);
    await page.getByRole('button', { name: 'Add a part…' }).press('Enter');
    await page.getByRole('button', { name: /^Mode / }).press('Enter');
    await page.getByLabel('name', { exact: true }).fill('signal');
    await page.getByRole('button', { name: 'Add signal' }).press('Enter');
    await page.getByRole('heading', { level: 2, name: 'signal' }).waitFor();
    await eventually(onDisk).toMatch(/modes:[^]*\n  signal: \{\}/);
    // a name that is taken is not written over
    await page.getByRole('button', { name: 'Add a part…' }).press('Enter');
    await page.getByRole('button', { name: /^Mode / }).press('Enter');
    await page.getByLabel('name', { exact: true }).fill('signal');
    await page.getByRole('button', { name: 'Add signal' }).press('Enter');
    await page.getByRole('alert').filter({ hasText: 'There is a signal already' }).waitFor();
  });
});
