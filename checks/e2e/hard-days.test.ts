/** What goes wrong while a builder works: the program killed, the analysis crashed, the page opened again, a very large build; and the size of the paper. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Page, Route } from 'playwright-core';
import { largeBuild } from '../../bench/generate-large-build.ts';
import { startServer } from '../../server/start-server.ts';
import { appFolder, describeDesk, drawn, eventually, saved } from './desk.ts';
import { openCard } from './open-card.ts';

const program = join(import.meta.dirname, '../../dist/program/main.cjs');
const studied = (page: Page): Promise<string | null> => page.locator('.desk').getAttribute('data-studied');
/** complaints that a server which is gone brings about */
// a page of the program before calls the new one with the old token, until it is left
const withoutAway = (complaints: string[]): void => { complaints.splice(0, complaints.length, ...complaints.filter((line) => !/ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED_ENCODING|ERR_CONNECTION_RESET|401 \(Unauthorized\) \S+\/api\/(events|build)$/.test(line))); };

describeDesk('on a hard day', (open) => {
  it('a server killed while edits are saved leaves a whole file, and the screen keeps what the file lacks', async () => {
    const { page, folder, onDisk, complaints } = await open();
    await drawn(page);
    const child = spawn(process.execPath, [program, 'open', folder, '--no-browser'], { env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '' } });
    const address = await new Promise<string>((resolve) => { child.stdout.setEncoding('utf8').on('data', (text: string) => { const found = /http:\S+/.exec(text); if (found) resolve(found[0]); }); });
    await page.goto(`${address}#layout`);
    const mass = (await openCard(page, 'M1')).locator('[data-path="parts.M1.mass"]');
    const before = onDisk();
    // what the file held before or any one of the edits, whole
    const whole = (text: string): boolean => text === before || [...text.matchAll(/mass: 7\d\.0 kg/g)].length === 1 && text.replace(/mass: 7\d\.0 kg/, 'mass: 25.3 kg ±0.2 measured') === before;
    for (let turn = 0; turn < 8; turn++) {
      await mass.fill(`7${turn}.0 kg`);
      await mass.press('Enter');
      if (turn === 5) setTimeout(() => child.kill('SIGKILL'), 3);
    }
    await page.getByText(/not saved/).first().waitFor();
    await eventually(() => child.signalCode).toBe('SIGKILL');
    expect(whole(onDisk())).toBe(true);
    expect(await mass.inputValue()).toMatch(/^77(\.0)? kg/);
    await eventually(() => page.evaluate("Object.entries(localStorage).find(([key]) => key.startsWith('halfshaft.unsaved'))?.[1] ?? ''")).toContain('mass: 77.0 kg');
    withoutAway(complaints);
  });

  it('text that never reached the file is offered again when the page comes back', async () => {
    const { page, server, folder, onDisk, complaints } = await open({ at: 'layout' });
    const mass = (await openCard(page, 'M1')).locator('[data-path="parts.M1.mass"]');
    const before = onDisk();
    await server.close();
    await mass.fill('71.0 kg');
    await mass.press('Enter');
    await page.getByText(/not saved/).first().waitFor();
    // the page that is left tries again every second or so, and the new address lets it through; here it must not come first
    const holdBack = (route: Route): Promise<void> => route.request().method() === 'PUT' ? route.abort('connectionrefused') : route.continue();
    await page.route('**/api/build', holdBack);
    const again = await startServer({ folder, appFolder, port: server.port, log: (line) => complaints.push(line) });
    try {
      // leaving a page with unsaved text asks first
      const asked = new Promise<string>((resolve) => page.once('dialog', (dialog) => { resolve(dialog.type()); void dialog.accept(); }));
      await page.goto(again.address.replace('#', '?again#'));
      expect(await Promise.race([asked, page.waitForTimeout(100).then(() => 'no dialog')])).toBe('beforeunload');
      await page.getByText('There is text from last time').waitFor();
      expect(onDisk()).toBe(before);
      await page.unroute('**/api/build', holdBack);
      await page.getByRole('button', { name: 'Take it back in' }).click();
      await saved(page);
      await eventually(onDisk).toContain('mass: 71.0 kg');
    } finally {
      await again.close();
      withoutAway(complaints);
    }
  });

  it('an analysis that crashes is started anew, and the next edit is studied', async () => {
    const { page, complaints } = await open({ at: 'layout' });
    const mass = (await openCard(page, 'M1')).locator('[data-path="parts.M1.mass"]');
    const first = await studied(page);
    for (const worker of page.workers().filter((each) => each.url().includes('analysis-worker'))) await worker.evaluate("void setTimeout(() => { throw new Error('planted'); })");
    await page.getByText('The analysis stopped and was started anew.').first().waitFor({ state: 'attached' });
    await mass.fill('72.0 kg');
    await mass.press('Enter');
    await eventually(() => studied(page)).not.toBe(first);
    complaints.splice(0, complaints.length, ...complaints.filter((line) => !line.includes('planted')));
  });

  it('findings do not wait for a diagram that is still being laid out', async () => {
    const { page, context } = await open({ at: 'layout' });
    let release = (): void => undefined;
    const held = new Promise<void>((resolve) => { release = resolve; });
    await context.route('**/layout-worker*.js', async (route) => { await held; await route.continue(); });
    const mass = (await openCard(page, 'M1')).locator('[data-path="parts.M1.mass"]');
    await page.evaluate("location.hash = '#low-voltage'");
    await page.getByRole('heading', { level: 2, name: 'M1', exact: true }).waitFor();
    const first = await studied(page);
    await mass.fill('73.0 kg');
    await mass.press('Enter');
    await eventually(() => studied(page)).not.toBe(first);
    await page.getByRole('region', { name: 'Sheet Layout' }).waitFor();
    release();
    await page.getByRole('region', { name: 'Sheet Low voltage' }).waitFor();
    await drawn(page);
  });

  it('five hundred parts are drawn, edited and saved', async () => {
    const { page, onDisk } = await open({ text: largeBuild(), at: 'layout' });
    const mass = (await openCard(page, 'M001')).locator('[data-path="parts.M001.mass"]');
    const first = await studied(page);
    await mass.fill('7.5 kg');
    await mass.press('Enter');
    await eventually(() => studied(page)).not.toBe(first);
    await saved(page);
    expect(onDisk()).toContain('mass: 7.5 kg');
  });

  it('the paper grows under the wheel with Ctrl and under two fingers, and shows its size', async () => {
    const { page, context } = await open({ at: 'layout', hasTouch: true });
    await drawn(page);
    const width = async (): Promise<number> => (await page.locator('.paper .drawing svg').boundingBox())!.width;
    const before = await width();
    const box = (await page.locator('.paper').boundingBox())!;
    await page.mouse.move(box.x + 200, box.y + 200);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -400);
    await page.keyboard.up('Control');
    await eventually(async () => (await width()) / before).toBeGreaterThan(1.5);
    const wide = await width();
    const touch = await context.newCDPSession(page);
    const fingers = (spread: number) => [{ x: 400 - spread, y: 400 }, { x: 400 + spread, y: 400 }];
    await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(120) });
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: fingers(60) });
    await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await eventually(async () => (await width()) / wide).toBeLessThan(0.7);
  });
});
