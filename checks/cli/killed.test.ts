/** kill -9 while a file is written: the file is whole, or not there, or what it was before. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { starterText } from '../../core/build/starter.ts';
import { seededRandom } from '../../core/solve/random.ts';
import { root } from '../architecture/imports.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-killed-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const random = seededRandom(20261125);

function killed(args: readonly string[], after: number): Promise<void> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(root, 'dist/program/main.cjs'), ...args], { cwd: root, stdio: 'ignore' });
    child.on('exit', () => resolve());
    setTimeout(() => child.kill('SIGKILL'), after);
  });
}

describe('a program that is killed while it saves', () => {
  it('leaves a starter file whole or none', async () => {
    let whole = 0;
    for (let attempt = 0; attempt < 16; attempt++) {
      const path = join(folder, `van-${attempt}`);
      await killed(['new', path], 40 + random() * 220);
      const file = join(path, 'build.yaml');
      if (!existsSync(file)) continue;
      whole++;
      expect(readFileSync(file, 'utf8')).toBe(starterText(`van-${attempt}`, 'metric'));
    }
    console.log(`killed 16 times, ${whole} had finished writing`);
  });
  it('leaves an older curve as it was, or writes the new one whole', async () => {
    const file = join(folder, 'curve.csv');
    const older = 'mode,by,time_s,voltage_V,current_A\r\nolder,PRE,0,0,0\r\n';
    for (let attempt = 0; attempt < 6; attempt++) {
      writeFileSync(file, older);
      await killed(['precharge', 'examples/bakery-van', '--csv', file], 150 + random() * 900);
      const text = readFileSync(file, 'utf8');
      if (text !== older) expect(text).toMatch(/^mode,by,time_s,voltage_V,current_A\r\n[^]*\r\n$/);
    }
  });
});
