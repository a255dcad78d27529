/** Why does it do nothing: the conversation on the bench, kept in readings.csv, and single failures to choose from; on the small demo car, by names as a screen reader has them. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { faultCases } from '../../core/readings/fault-cases.ts';
import type { FaultCase } from '../../core/readings/fault-cases.ts';
import { readLog } from '../../core/readings/log.ts';
import { brokenRules, inOneLine } from './axe.ts';
import { describeDesk, drawn, eventually } from './desk.ts';

const violations = async (page: Page, within: string): Promise<string[]> => (await brokenRules(page, { where: within })).map(inOneLine);

async function openPanel(page: Page): Promise<Locator> {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.getByRole('menuitem', { name: /^Why does it do nothing/ }).click();
  return page.getByRole('region', { name: 'Fault finding' });
}

async function write(panel: Locator, seen: string): Promise<void> {
  await panel.getByLabel('written as').fill(seen);
  await panel.getByLabel('written as').press('Enter');
}

const steps = (panel: Locator): Locator => panel.getByRole('region', { name: 'Seen so far' }).getByRole('listitem');
const settled = (panel: Locator): Promise<void> => panel.locator('.fault-answer:not(.stale)').waitFor({ timeout: 60_000 });

describeDesk('fault finding on the bench', (open) => {
  it('keeps every answer, shows where the probes go, takes back, goes on after a reload, prints the path, and is ended', async () => {
    const { page, onDisk, folder } = await open({ example: 'orchard-hauler', at: 'low-voltage' });
    const file = join(folder, 'readings.csv');
    const cases = (): readonly FaultCase[] => (existsSync(file) ? faultCases(readLog(readFileSync(file, 'utf8')).readings) : []);
    const texts = (): readonly string[] => cases()[0]?.entries.map(({ said }) => said.text) ?? [];
    await drawn(page);
    const before = onDisk();
    const panel = await openPanel(page);
    await panel.getByLabel('no contactor clicks').check({ timeout: 60_000 });
    await panel.getByRole('region', { name: 'Next' }).waitFor({ timeout: 60_000 });
    expect(texts()).toEqual(['no_click']);
    await eventually(() => panel.locator('.causes li').count()).toBeGreaterThan(3);
    // what is not understood is not written
    await panel.getByText('Something else that was seen').click();
    await write(panel, 'F_b12.a-chassis=12.6');
    await panel.getByText(/has no unit/).waitFor();
    expect(texts()).toHaveLength(1);
    for (const seen of ['SEQ.runs=no', 'F_b12.a-chassis=12.6 V']) {
      await write(panel, seen);
      await eventually(texts).toContain(seen);
    }
    await eventually(() => steps(panel).count()).toBe(3);
    await settled(panel);
    // which test comes first is the engine's choice: looks are answered until a voltage is asked for
    let said = 3;
    while (said < 8 && await panel.getByText('Red lead').count() === 0) {
      await panel.getByRole('button', { name: 'No', exact: true }).click();
      await eventually(() => steps(panel).count()).toBe(++said);
      await settled(panel);
    }
    // its points light up where they are drawn, with a probe on each
    await panel.getByText('Red lead').waitFor();
    await panel.getByRole('button', { name: 'Show where' }).click();
    await page.locator('.overlay .light').first().waitFor();
    await eventually(() => page.locator('.overlay text').allTextContents()).toEqual(['+', '−']);
    await panel.getByLabel('it reads').fill('0 V');
    await panel.getByLabel('it reads').press('Enter');
    await eventually(() => steps(panel).count()).toBe(said + 1);
    await settled(panel);
    // the field went away with the answer: whoever works by keyboard stands at the next test
    expect(await page.evaluate("document.activeElement.getAttribute('aria-label')")).toBe('Next');
    const last = texts().at(-1)!;
    expect(last).toMatch(/=0 V$/);
    await panel.getByRole('button', { name: 'Undo the last answer' }).click();
    await eventually(() => steps(panel).count()).toBe(said);
    expect(texts()).not.toContain(last);
    expect(cases()[0]!.takenBack.map(({ said }) => said.text)).toEqual([last]);
    await write(panel, 'F_b12.b-chassis=0 V');
    await eventually(() => steps(panel).count()).toBe(said + 1);
    await settled(panel);
    await eventually(() => panel.getByRole('region', { name: 'It may be' }).textContent()).toMatch(/F_b12/);
    expect(await violations(page, '.bench')).toEqual([]);
    // everything stands in the file: the page picks the conversation up
    const kept = readFileSync(file, 'utf8');
    await page.reload();
    await steps(panel).nth(said).waitFor({ timeout: 60_000 });
    expect(await steps(panel).count()).toBe(said + 1);
    await settled(panel);
    expect(readFileSync(file, 'utf8')).toBe(kept);
    // somebody else adds a line with halfshaft fault: it is heard
    writeFileSync(file, `${kept}other,2026-11-26T02:00:00Z,Bo,fault,drive-1,drive,F_key.b chassis,voltage,0 V,,,,,,\r\n`);
    await eventually(() => steps(panel).last().textContent()).toMatch(/F_key\.b to chassis/);
    await settled(panel);
    await panel.getByRole('button', { name: /^Print the path/ }).click();
    await page.getByRole('region', { name: 'Sheet Fault finding' }).waitFor({ timeout: 60_000 });
    await drawn(page);
    await page.getByRole('button', { name: 'Read in words' }).click();
    await page.getByRole('heading', { name: /^Why does it do nothing in mode drive\? Conversation drive-1$/ }).waitFor();
    await eventually(() => page.locator('#sheet-words').textContent()).toMatch(/Volts from F_b12\.b to clean metal of the body/);
    await panel.locator('summary', { hasText: /end the conversation/i }).click();
    await panel.getByLabel('what came of it').fill('new fuse');
    await panel.getByRole('button', { name: 'End it' }).click();
    await panel.getByText('Ended: new fuse.').waitFor();
    expect(cases()[0]!.end?.note).toBe('new fuse');
    await panel.getByRole('combobox', { name: /^conversation/ }).selectOption('');
    await eventually(() => panel.getByLabel('no contactor clicks').isChecked()).toBe(false);
    expect(onDisk()).toBe(before);
  }, 180_000);

  it('takes a symptom and takes it back on a screen of 360 px, by night', async () => {
    const { page } = await open({ example: 'orchard-hauler', at: 'low-voltage', theme: 'dark', viewport: { width: 360, height: 740 } });
    await drawn(page);
    const panel = await openPanel(page);
    await panel.getByLabel('no contactor clicks').check({ timeout: 60_000 });
    await panel.getByRole('region', { name: 'Next' }).waitFor({ timeout: 60_000 });
    await settled(panel);
    expect(await violations(page, '.bench')).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(360);
    await panel.getByRole('button', { name: /^Take back: no contactor clicks/ }).click();
    await eventually(() => panel.getByLabel('no contactor clicks').isChecked()).toBe(false);
  });
});

describeDesk('fault finding with the file out of reach', (open) => {
  it('says what is not kept, and keeps it when the file is there again', async () => {
    const { page, folder, complaints } = await open({ example: 'orchard-hauler', at: 'low-voltage' });
    const texts = (): readonly string[] => { const file = join(folder, 'readings.csv'); return existsSync(file) ? faultCases(readLog(readFileSync(file, 'utf8')).readings).flatMap(({ entries }) => entries.map(({ said }) => said.text)) : []; };
    await drawn(page);
    const panel = await openPanel(page);
    await panel.getByText('Something else that was seen').click({ timeout: 60_000 });
    await page.route('**/api/readings', (route) => (route.request().method() === 'POST' ? route.abort() : route.continue()));
    await write(panel, 'SEQ.runs=no');
    await panel.getByText(/^What was said last is not in the file yet/).waitFor({ timeout: 60_000 });
    await write(panel, 'INV.runs=no');
    await panel.getByText(/^2 things said are not in the file yet/).waitFor();
    expect(texts()).toEqual([]);
    await page.unroute('**/api/readings');
    await panel.getByRole('button', { name: 'Try again' }).click();
    await eventually(() => steps(panel).count()).toBe(2);
    expect(texts()).toEqual(['SEQ.runs=no', 'INV.runs=no']);
    expect(await panel.getByRole('button', { name: 'Try again' }).count()).toBe(0);
    complaints.splice(0, complaints.length, ...complaints.filter((one) => !/Failed to load resource/.test(one)));
  });
});

describeDesk('single failures to choose from', (open) => {
  it('by how bad, mode, what tells, part and words, by keyboard: light on 1440 px, then dark on 360 px', async () => {
    const { page } = await open({ example: 'orchard-hauler', at: 'single-failures', viewport: { width: 1440, height: 800 } });
    await page.getByRole('region', { name: 'Sheet Single failures' }).waitFor({ timeout: 90_000 });
    for (const [theme, width] of [['light', 1440], ['dark', 360]] as const) {
      await page.setViewportSize({ width, height: 800 });
      await page.emulateMedia({ colorScheme: theme });
      await page.getByRole('button', { name: 'Choose failures' }).focus();
      await page.keyboard.press('Enter');
      const search = page.getByRole('search', { name: 'Choose failures' });
      await page.locator('.failure').first().waitFor({ timeout: 90_000 });
      const count = async (): Promise<number> => Number(/^(\d+) of/.exec(await page.locator('.failures > [role=status]').textContent() ?? '')?.[1] ?? NaN);
      // what was chosen before is kept
      for (const showAll of await search.getByRole('button', { name: 'Show all' }).all()) if (await showAll.isEnabled()) await showAll.click();
      await eventually(count).toBeGreaterThan(99);
      const all = await count();
      expect(await violations(page, '.left')).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      await search.getByLabel('How bad').selectOption('less');
      await eventually(count).toBeLessThan(all);
      const mild = await count();
      await eventually(() => page.locator('.failure-group').count()).toBe(1);
      await search.getByLabel('Told').selectOption('yes');
      await eventually(count).toBeLessThan(mild);
      await search.getByLabel('Mode').selectOption('drive');
      await search.getByRole('searchbox', { name: 'Words' }).focus();
      await page.keyboard.type('filament OPEN');
      await eventually(count).toBe(1);
      await eventually(() => page.locator('.failure').first().textContent()).toMatch(/L_ready/);
      await search.getByRole('button', { name: 'Show all' }).click();
      await search.getByLabel('Part or run').selectOption('K_main');
      await eventually(async () => (await page.locator('.failure .what').allTextContents()).every((text) => text.includes('K_main'))).toBe(true);
      expect(await violations(page, '.left')).toEqual([]);
      await page.getByRole('button', { name: /^Show it: K_main/ }).first().click();
      await page.getByRole('region', { name: 'Card of parts.K_main' }).waitFor();
      await page.getByRole('button', { name: 'Back to the drawing' }).click();
      await drawn(page);
    }
  }, 180_000);
});
