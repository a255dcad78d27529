/** halfshaft new DIR */
import { existsSync, mkdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { starterText } from '../starter.ts';
import { WrongCall } from '../wrong-call.ts';

export function newBuild(folder: string, options: { readonly units: 'metric' | 'imperial' }): void {
  const file = join(folder, 'build.yaml');
  if (existsSync(file)) throw new WrongCall(`${file} is there already; nothing was written.`);
  try {
    mkdirSync(folder, { recursive: true });
    writeFileAtomic.sync(file, starterText(basename(resolve(folder)), options.units));
  } catch (error) {
    throw new WrongCall(`${file} cannot be written: ${(error as Error).message}`);
  }
  process.stdout.write(`Wrote ${file}. Fill in what you know, then: halfshaft check ${folder}\n`);
}
