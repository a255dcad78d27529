// A browser for the tests: the system's own Chromium, or Debian's where its package manager may be used. Prints which, or why there is none.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** Path of a Chromium that is there; undefined when there is none. */
export function findBrowser() {
  const given = process.env['CHROMIUM_PATH'];
  if (given) return existsSync(given) ? given : undefined;
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find((path) => existsSync(path));
}

/** Installs one where the package manager lets us; the tests that need it are skipped, and say so, where it does not. */
export function readyBrowser() {
  const there = findBrowser();
  if (there) return there;
  const asRoot = process.getuid?.() === 0 ? [] : spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0 ? ['sudo', '-n'] : undefined;
  if (process.env['CHROMIUM_PATH'] || asRoot === undefined || spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status !== 0) {
    console.log('No Chromium here and no way to install one: the tests of the screen are skipped. Install chromium, or name one in CHROMIUM_PATH.');
    return undefined;
  }
  console.log('Installing Chromium for the tests of the screen …');
  const apt = (...args) => { const [command, ...rest] = [...asRoot, 'apt-get', ...args]; return spawnSync(command, rest, { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } }).status === 0; };
  const install = () => apt('install', '-y', '-qq', '--no-install-recommends', 'chromium');
  if (!install()) { apt('update', '-qq'); install(); }
  const now = findBrowser();
  if (!now) console.log('Chromium could not be installed: the tests of the screen are skipped.');
  return now;
}
