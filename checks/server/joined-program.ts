/** A program of its own for tests that kill or signal one: joined from the sources, as the build does it. */
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from '../architecture/imports.ts';

/** @param source  TypeScript, its imports relative to the repository. @returns the file to run */
export async function joinProgram(source: string, folder: string): Promise<string> {
  const file = join(folder, 'program.cjs');
  await build({
    stdin: { contents: source, resolveDir: root, loader: 'ts' }, outfile: file, bundle: true, format: 'cjs', platform: 'node', target: 'node20', logLevel: 'error',
    define: { 'import.meta.url': 'fileOfProgram' }, banner: { js: "const fileOfProgram = require('node:url').pathToFileURL(__filename).href;" },
  });
  return file;
}
