/** Finds and reads the text of a build: a folder with `build.yaml`, or the file itself. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { whyNot } from './why-not.ts';
import { WrongCall } from './wrong-call.ts';

export interface OpenBuild { readonly file: string; readonly text: string }

const LARGEST = 4_000_000;

export function openBuild(path: string): OpenBuild {
  if (path.trim() === '') throw new WrongCall('Name a build folder with a build.yaml in it.');
  let file = path;
  try {
    if (statSync(path).isDirectory()) file = join(path, 'build.yaml');
    const found = statSync(file);
    if (!found.isFile()) throw new WrongCall(`${file} is no file. Give a build folder with a build.yaml in it.`);
    const { size } = found;
    if (size > LARGEST) throw new WrongCall(`${file} is ${Math.round(size / 1e6)} MB; a build file is text of at most 1 MB.`);
    return { file, text: readFileSync(file, 'utf8') };
  } catch (error) {
    if (error instanceof WrongCall) throw error;
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'ENOENT') throw new WrongCall(`There is no ${file}. Give a build folder with a build.yaml in it, or start one with: halfshaft new ${path}`);
    throw new WrongCall(`${file} cannot be read: ${whyNot(error)}.`);
  }
}
