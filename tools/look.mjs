// node tools/look.mjs file.svg out.png [width]: a picture of an SVG file, for looking at what was drawn.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { findBrowser } from './browser.mjs';

const browser = findBrowser();
if (!browser) throw new Error('There is no Chromium; name one in CHROMIUM_PATH.');
const [file, out, width = '1680'] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'look-'));
const height = Math.round((Number(width) * 297) / 420);
writeFileSync(join(folder, 'look.html'), `<body style="margin:0"><img src="file://${resolve(file)}" style="width:${width}px;height:${height}px;display:block">`);
spawnSync(browser, ['--headless', '--no-sandbox', '--disable-gpu', '--disable-background-networking', '--allow-file-access-from-files', `--user-data-dir=${folder}/u`, `--screenshot=${resolve(out)}`, `--window-size=${width},${height}`, `file://${folder}/look.html`], { stdio: 'ignore' });
rmSync(folder, { recursive: true, force: true });
