/** halfshaft new DIR */
import { existsSync, mkdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { starterText } from '../../core/build/starter.ts';
import { whyNot } from '../../server/why-not.ts';
import type { Terminal } from '../terminal.ts';
import { writeWhole } from '../write-whole.ts';
import { WrongCall } from '../wrong-call.ts';

export async function newBuild(folder: string, options: { readonly units: 'metric' | 'imperial' }, { print }: Terminal): Promise<void> {
  if (folder.trim() === '') throw new WrongCall('Name the folder to make.');
  const file = join(folder, 'build.yaml');
  if (existsSync(file)) throw new WrongCall(`${file} is there already; nothing was written.`);
  try {
    // one level only: a parent that is not there is more likely a slip of the pen than a wish
    if (!existsSync(folder)) mkdirSync(folder);
  } catch (error) {
    throw new WrongCall(`${file} cannot be written: ${whyNot(error)}.`);
  }
  await writeWhole(file, starterText(basename(resolve(folder)), options.units));
  print(`Wrote ${file}. Fill in what you know, then: halfshaft check ${folder}\n`);
}
