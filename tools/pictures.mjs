// npm run pictures: the README's pictures, made from the demo builds: what the terminal shows and the sheets as SVG, the workbench as
// PNG (that one needs a Chromium; without one the old pictures stay).
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { findBrowser } from './browser.mjs';
import { build } from './build.mjs';
import { root } from './ready.mjs';

await build();
const pictures = [
  { file: 'check-coupe.svg', args: ['check', 'examples/two-string-coupe', '--draws', '300'], lines: 46 },
  { file: 'precharge-van.svg', args: ['precharge', 'examples/bakery-van'], lines: 23 },
  { file: 'read-van.svg', args: ['read', 'examples/bakery-van', '--between', 'K_pos.out', 'K_neg.out', '--state', 'drive'], lines: 10 },
  { file: 'explain.svg', args: ['explain', 'high-voltage.fuse-voltage-rating'], lines: 30 },
];
const escape = (text) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
/** level shapes keep their colour; everything else is ink on paper */
const colours = { '■': '#b3261e', '▲': '#b26a00', '?': '#7a3e9d', '○': '#1f6f8b', '·': '#3c7a3c' };

mkdirSync(join(root, 'docs/pictures'), { recursive: true });
for (const { file, args, lines } of pictures) {
  const done = spawnSync(process.execPath, [join(root, 'dist/program/main.cjs'), ...args], { cwd: root, encoding: 'utf8', env: { ...process.env, NO_COLOR: '1' }, maxBuffer: 64e6 });
  if (done.status === 2) throw new Error(`${args.join(' ')}: ${done.stderr}`);
  const all = done.stdout.trimEnd().split('\n');
  const shown = [`$ halfshaft ${args.join(' ')}`, '', ...all.slice(0, lines), ...(all.length > lines ? [`… ${all.length - lines} more lines`] : [])];
  const [left, top, lineHeight, charWidth] = [18, 30, 18, 7.83];
  const width = Math.ceil(Math.max(...shown.map((line) => line.length)) * charWidth + 2 * left);
  const height = shown.length * lineHeight + top + 8;
  const rows = shown.map((line, index) => {
    const colour = colours[line[0]];
    const body = colour ? `<tspan fill="${colour}" font-weight="600">${escape(line.slice(0, 9))}</tspan>${escape(line.slice(9))}` : escape(line);
    return `<text x="${left}" y="${top + index * lineHeight}" xml:space="preserve"${line === '' ? '' : ` textLength="${(line.length * charWidth).toFixed(1)}" lengthAdjust="spacingAndGlyphs"`}${index === 0 ? ' font-weight="600"' : ''}>${body}</text>`;
  });
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escape(shown[0])}">
<rect width="${width}" height="${height}" fill="#fbf8f1"/><rect x="0.5" y="0.5" width="${width - 1}" height="${height - 1}" fill="none" stroke="#c9c2b2"/>
<g font-family="'IBM Plex Mono','DejaVu Sans Mono',Menlo,Consolas,monospace" font-size="13" fill="#22252b">
${rows.join('\n')}
</g>
</svg>
`;
  writeFileSync(join(root, 'docs/pictures', file), svg);
  console.log(`docs/pictures/${file}`);
}

// pages of the drawing set; the lettering stays out of the files, which would be ten times as large with it
for (const [name, build, ...more] of [['layout', 'bakery-van'], ['high-voltage', 'bakery-van', '--state', 'drive'], ['pack', 'two-string-coupe'], ['precharge', 'bakery-van'], ['assembly', 'bakery-van']]) {
  const file = join(tmpdir(), `halfshaft-${name}.svg`);
  const done = spawnSync(process.execPath, [join(root, 'dist/program/main.cjs'), 'sheet', name, join('examples', build), '--no-fonts', '--date', 'demo', '-o', file, ...more], { cwd: root, encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`sheet ${name}: ${done.stderr}`);
  // the first page
  cpSync(file, join(root, 'docs/pictures', `sheet-${name}.svg`));
  console.log(`docs/pictures/sheet-${name}.svg`);
}

const executablePath = findBrowser();
if (!executablePath) console.log('No Chromium: the pictures of the workbench stay as they are.');
else await photographWorkbench();

async function photographWorkbench() {
  const { chromium } = await import('playwright-core');
  const { startServer } = await import(pathToFileURL(join(root, 'dist/server/start-server.js')).href);
  const folder = mkdtempSync(join(tmpdir(), 'halfshaft-'));
  cpSync(join(root, 'examples/bakery-van'), join(folder, 'bakery-van'), { recursive: true });
  const server = await startServer({ folder: join(folder, 'bakery-van'), appFolder: join(root, 'dist/web'), port: 0, log: () => undefined });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  const views = [
    { file: 'workbench.png', width: 1440, height: 900, colorScheme: 'light', sheet: 'Layout', take: 'parts.M3' },
    { file: 'workbench-night.png', width: 1440, height: 900, colorScheme: 'dark', sheet: 'High voltage' },
    { file: 'workbench-phone.png', width: 360, height: 740, colorScheme: 'light' },
  ];
  for (const { file, width, height, colorScheme, sheet, take } of views) {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme, reducedMotion: 'reduce' });
    const page = await context.newPage();
    await page.goto(server.address);
    await page.getByRole('button', { name: 'I have read this' }).click();
    await page.locator('svg [data-subject], svg [data-key]').first().waitFor({ timeout: 60_000 });
    if (sheet) await page.getByRole('tab', { name: sheet }).or(page.getByRole('button', { name: sheet })).or(page.getByRole('link', { name: sheet })).first().click();
    await page.waitForTimeout(6000);
    if (take) { await page.locator(`.drawing [data-subject="${take}"]`).first().focus(); await page.keyboard.press('Enter'); await page.waitForTimeout(1500); }
    await page.screenshot({ path: join(root, 'docs/pictures', file) });
    console.log(`docs/pictures/${file}`);
    await context.close();
  }
  await browser.close();
  await server.close();
  rmSync(folder, { recursive: true, force: true });
}
