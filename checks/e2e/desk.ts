/**
 * A workbench in a real browser: the real server on a copy of a demo build, the built page, one browser a test file.
 * Whatever the browser complains about fails the test.
 */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect } from 'vitest';
import { findBrowser } from '../../tools/browser.mjs';
import { studyOnWorker } from '../../cli/study-on-worker.ts';
import { startServer } from '../../server/start-server.ts';
import type { RunningServer } from '../../server/start-server.ts';

const root = join(import.meta.dirname, '../..');
export const appFolder = join(root, 'dist/web');
/** As `halfshaft open` has it; one for all desks of a test file. */
const studies = studyOnWorker(join(root, 'dist/program/study-worker.cjs'));

export interface DeskOptions {
  /** folder under examples/; absent: the van */
  readonly example?: string;
  /** the file's text instead of the example's; null: no file at all */
  readonly text?: string | null;
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly theme?: 'light' | 'dark';
  /** the cautions were not read yet */
  readonly isFirst?: boolean;
  /** sheet and page, as behind # in the address */
  readonly at?: string;
  readonly hasTouch?: boolean;
  /** the server makes no studies: the page makes the first one itself */
  readonly isAlone?: boolean;
  /** chances are drawn behind the screen, as for a builder; without them the cores belong to what is tested */
  readonly hasDraws?: boolean;
}

export interface OpenDesk {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly folder: string;
  readonly server: RunningServer;
  readonly onDisk: () => string;
  readonly writeOnDisk: (text: string) => void;
  /** complaints of the browser that the test itself brings about are taken off here */
  readonly complaints: string[];
}

/** The worker that draws is made and never answers. */
const NO_DRAWS = `{
  const Made = window.Worker;
  window.Worker = function (address, options) { return options?.name === 'draws' ? { postMessage() {}, terminate() {} } : new Made(address, options); };
  window.Worker.prototype = Made.prototype;
}`;

/** Tests of the screen; passed over, in a printed line, where there is no browser or no built page. */
export function describeDesk(name: string, tests: (open: (options?: DeskOptions) => Promise<OpenDesk>) => void): void {
  const executablePath = findBrowser();
  const why = executablePath === undefined ? 'there is no Chromium' : existsSync(join(appFolder, 'index.html')) ? undefined : 'dist/web is not built';
  if (why !== undefined) console.log(`${name}: passed over, ${why}.`);
  describe.skipIf(why !== undefined)(name, { timeout: 90_000 }, () => {
    let browser: Browser | undefined;
    const opened: OpenDesk[] = [];
    beforeAll(async () => {
      browser = await chromium.launch({ ...(executablePath === undefined ? {} : { executablePath }), args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'] });
    }, 60_000);
    afterAll(async () => { await browser?.close(); });
    afterEach(async () => {
      const complaints: string[] = [];
      for (const desk of opened.splice(0)) {
        complaints.push(...desk.complaints);
        await desk.context.close();
        await desk.server.close();
        rmSync(desk.folder, { recursive: true, force: true });
      }
      expect(complaints).toEqual([]);
    }, 60_000);
    tests(async (options = {}) => {
      if (!browser) throw new Error('the browser did not start');
      const desk = await openDesk(browser, options);
      opened.push(desk);
      return desk;
    });
  });
}

async function openDesk(browser: Browser, { example = 'bakery-van', text, viewport = { width: 1440, height: 900 }, theme = 'light', isFirst = false, at = '', hasTouch = false, isAlone = false, hasDraws = false }: DeskOptions): Promise<OpenDesk> {
  const folder = mkdtempSync(join(tmpdir(), 'desk-'));
  const file = join(folder, 'build.yaml');
  if (text === undefined) cpSync(join(root, 'examples', example), folder, { recursive: true });
  else if (text !== null) writeFileSync(file, text);
  const complaints: string[] = [];
  const server = await startServer({ folder, appFolder, studies: isAlone ? undefined : studies, log: (line) => complaints.push(`server: ${line}`) });
  const context = await browser.newContext({ viewport, colorScheme: theme, hasTouch, reducedMotion: 'reduce' });
  // the first screen is in the way of every test but its own
  if (!isFirst) await context.addInitScript({ content: "try { localStorage.setItem('halfshaft.cautions-read', 'true'); } catch {}" });
  if (!hasDraws) await context.addInitScript({ content: NO_DRAWS });
  const page = await context.newPage();
  page.on('console', (message) => { if (message.type() === 'error' || message.type() === 'warning') complaints.push(`${message.type()}: ${message.text()} ${message.location().url}`); });
  page.on('pageerror', (error) => complaints.push(`page error: ${error.message}`));
  await page.goto(`${server.address}${at === '' ? '' : `#${at}`}`);
  return { page, context, folder, server, complaints, onDisk: () => readFileSync(file, 'utf8'), writeOnDisk: (next) => writeFileSync(file, next) };
}

/** Waits until the sheet is drawn and belongs to the text as it stands. */
export async function drawn(page: Page): Promise<void> {
  await page.locator('.paper:not(.stale) .drawing svg').waitFor();
}

/** Waits until the file holds what the screen shows. */
export async function saved(page: Page): Promise<void> {
  await page.locator('.file-state', { hasText: /^saved$/ }).waitFor();
}

/** What will be true soon, also on a machine that has other things to do. */
export function eventually<T>(ask: () => T | Promise<T>): ReturnType<typeof expect.poll<T>> {
  return expect.poll(ask, { timeout: 15_000, interval: 60 });
}
