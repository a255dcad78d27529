/** Finds and reads the text of a build: a folder with `build.yaml`, or the file itself. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { whyTooLarge } from '../server/largest-build.ts';
import { whyNot } from '../server/why-not.ts';
import { WrongCall } from './wrong-call.ts';

export interface OpenBuild { readonly file: string; readonly text: string }

export function openBuild(path: string): OpenBuild {
  if (path.trim() === '') throw new WrongCall('Name a build folder with a build.yaml in it.');
  let file = path;
  try {
    if (statSync(path).isDirectory()) file = join(path, 'build.yaml');
    const found = statSync(file);
    if (!found.isFile()) throw new WrongCall(`${file} is no file. Give a build folder with a build.yaml in it.`);
    const tooLarge = whyTooLarge(file, found.size);
    if (tooLarge !== undefined) throw new WrongCall(tooLarge);
    return { file, text: readFileSync(file, 'utf8') };
  } catch (error) {
    if (error instanceof WrongCall) throw error;
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'ENOENT') throw new WrongCall(`There is no ${file}. Give a build folder with a build.yaml in it, or start one with: halfshaft new ${path}`);
    throw new WrongCall(`${file} cannot be read: ${whyNot(error)}.`);
  }
}
