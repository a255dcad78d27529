/** halfshaft check as a whole process, against an empty Node process. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { medianTime } from './measured.ts';
import type { Measured } from './measured.ts';

export async function run(root: string): Promise<Measured[]> {
  const node = (args: readonly string[]): void => { spawnSync(process.execPath, args, { cwd: root, stdio: 'ignore' }); };
  const empty = medianTime(() => node(['-e', '0']), 9, 2);
  const check = medianTime(() => node([join(root, 'dist/program/main.cjs'), 'check', join(root, 'examples/bakery-van')]), 9, 2);
  return [{ name: 'halfshaft check of the van, whole process', ours: check, reference: empty, referenceName: 'node -e 0', wanted: '8 times at most', isMet: check / empty <= 8 }];
}
