/** The guided power-up: hold points, readings with their verdict, and going on where one was, on a phone-sized screen by keyboard alone. */
import { readFileSync, writeFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readLog } from '../../core/readings/log.ts';
import { brokenRules, inOneLine } from './axe.ts';
import { describeDesk, eventually } from './desk.ts';
import { small } from './small-build.ts';

const readingsIn = (file: string): ReturnType<typeof readLog>['readings'] => (existsSync(file) ? readLog(readFileSync(file, 'utf8')).readings : []);

describeDesk('the guided power-up', (open) => {
  it('goes step by step, stops at hold points, judges at once, keeps every reading, and goes on after reloading', async () => {
    const { page, folder } = await open({ text: small, viewport: { width: 360, height: 740 } });
    const file = join(folder, 'readings.csv');
    const log = () => readingsIn(file);
    const found: string[] = [];
    const look = async (): Promise<void> => { found.push(...(await brokenRules(page)).map(inOneLine)); };
    await page.getByRole('button', { name: 'Power-up', exact: true }).click();
    await page.getByText(/^Step 1 of/).waitFor();
    await look();
    // the first step is a hold point: there is no way round it
    const title = await page.getByRole('heading', { level: 1 }).textContent();
    await page.getByRole('button', { name: 'Next' }).focus();
    await page.keyboard.press('Enter');
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(title);
    // by keyboard alone, until something is measured
    for (let steps = 0; steps < 12 && await page.getByLabel('What the meter shows').count() === 0; steps++) {
      const before = log().length;
      await page.getByRole('button', { name: /^Yes,/ }).focus();
      await page.keyboard.press('Enter');
      await eventually(() => log().length).toBe(before + 1);
      await page.locator('.sign-status[data-status="passed"]').waitFor();
      await page.getByRole('button', { name: 'Next' }).focus();
      await page.keyboard.press('Enter');
    }
    const field = page.getByLabel('What the meter shows');
    await field.fill('1');
    await page.keyboard.press('Enter');
    await page.locator('.verdict[data-word]').waitFor();
    await field.fill('30 V');
    await page.keyboard.press('Enter');
    await page.locator('.verdict[data-word="outside"]').waitFor();
    await eventually(() => log().at(-1)?.verdict).toBe('outside');
    await page.locator('.sign-status[data-status="outside"]').waitFor();
    await look();
    expect(await page.getByRole('button', { name: 'Next' }).getAttribute('aria-disabled')).toBe('true');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(360);
    // another program adds: the screen follows
    const where = await page.locator('.guide-count').textContent();
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.reload();
    await eventually(() => page.locator('.guide-count').textContent()).toBe(where);
    const last = log().at(-1)!;
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, `${text}${text.trimEnd().split('\r\n').at(-1)!.replace(last.id, 'other').replace('30 V', '0.9 V').replace('outside', 'agrees')}\r\n`);
    await page.locator('.sign-status[data-status="passed"]').waitFor();
    await page.getByRole('button', { name: 'All steps' }).click();
    await page.getByRole('heading', { name: 'All steps' }).waitFor();
    await look();
    await page.getByRole('button', { name: 'Leave' }).click();
    await page.locator('.drawing svg').waitFor();
    expect(found).toEqual([]);
  });
  it('enters the assembly beside it, names the module that is turned round, and puts a better number into the file only when asked', async () => {
    const { page, folder, onDisk } = await open({ text: small, viewport: { width: 360, height: 740 }, at: 'assembly-steps' });
    const file = join(folder, 'readings.csv');
    const log = () => readingsIn(file);
    const found: string[] = [];
    const look = async (): Promise<void> => { found.push(...(await brokenRules(page)).map(inOneLine)); };
    const enter = async (value: string, word: string): Promise<void> => {
      const before = log().length;
      await page.getByLabel('What the meter shows').fill(value);
      await page.keyboard.press('Enter');
      await page.locator(`.verdict[data-word="${word}"]`).waitFor();
      await eventually(() => log().length).toBe(before + 1);
    };
    await page.getByText(/^Step 1 of 7/).waitFor();
    await page.getByRole('heading', { level: 1, name: 'Module M1 by itself' }).waitFor();
    await look();
    await enter('-47.6 V', 'outside');
    await page.getByText(/appears reversed: -47\.6 V where \+47\.92 V is expected/).waitFor();
    expect(await page.getByRole('button', { name: 'Next' }).getAttribute('aria-disabled')).toBe('true');
    await enter('47.60', 'agrees');
    expect(log().at(-1)).toMatchObject({ procedure: 'assembly', step: 'assembly.M1.voltage', reading: '47.60 V', verdict: 'agrees', points: ['M1.pos', 'M1.neg'] });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(360);
    // the file is as it was until the builder says so
    const before = onDisk();
    await page.getByRole('button', { name: 'Better numbers (1)' }).click();
    await page.getByRole('heading', { name: 'M1, measured voltage' }).waitFor();
    await look();
    expect(onDisk()).toBe(before);
    await page.getByRole('button', { name: /^Apply 47\.60 V/ }).click();
    await eventually(onDisk).toBe(before.replace('47.92 V ±0.03 measured', '47.60 V ±0.26 measured'));
    await page.getByText('The file says all of it now.').waitFor();
    await page.getByRole('button', { name: /^Undo: M1/ }).click();
    await eventually(onDisk).toBe(before);
    await page.getByRole('button', { name: /^Apply 47\.60 V/ }).click();
    await page.getByText('The file says all of it now.').waitFor();
    // what it rests on moved towards the reading: it stays passed, and the work goes on behind it
    await page.getByRole('button', { name: 'Assembly', exact: true }).click();
    await page.getByText(/· 1 passed/).waitFor();
    await page.getByRole('button', { name: 'Next' }).click();
    await page.getByRole('heading', { level: 1, name: 'Module M2 by itself' }).waitFor();
    // back to the other procedure, and out
    await page.getByRole('button', { name: 'Power-up', exact: true }).click();
    await page.getByText(/^Step 1 of/).waitFor();
    await page.goBack();
    await page.getByRole('heading', { level: 1, name: 'Module M2 by itself' }).waitFor();
    await page.getByRole('button', { name: 'Leave' }).click();
    await page.locator('.drawing svg').waitFor();
    expect(found).toEqual([]);
  });
});
