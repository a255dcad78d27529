// Installs the packages of the lock file when they are not there yet, or when the lock file has changed since.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..');

export function ready() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Halfshaft needs Node 20.19 or newer; this is ${process.versions.node}.`);
    process.exit(2);
  }
  const lock = createHash('sha256').update(readFileSync(join(root, 'package-lock.json'))).digest('hex');
  const stamp = join(root, 'node_modules', '.halfshaft-installed');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
  console.log('Installing packages …');
  run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']);
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, lock);
}

export function run(command, args, options = {}) {
  const done = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (done.error) throw done.error;
  if (done.status !== 0 && !options.mayFail) process.exit(done.status ?? 1);
  return done.status ?? 1;
}

export const bin = (name) => join(root, 'node_modules', '.bin', name);
