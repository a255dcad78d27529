/** Reads the imports of every source file of the project, for the rules of the house. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';

export interface SourceFile { readonly path: string; readonly text: string; readonly imports: readonly { readonly to: string; readonly isTypeOnly: boolean }[] }

export const root = resolve(import.meta.dirname, '..', '..');

/** Files below the given folders of the repository, tests left out unless asked for. */
export function sourceFiles(folders: readonly string[], withTests = false): SourceFile[] {
  return folders.flatMap((folder) => walk(join(root, folder))).filter((path) => /\.tsx?$/.test(path) && (withTests || !/\.(test|check)\.tsx?$/.test(path))).map(read);
}

export function importsIn(text: string, path: string): SourceFile['imports'] {
  const found: { to: string; isTypeOnly: boolean }[] = [];
  for (const match of text.matchAll(/^\s*(?:import|export)\s+(type\s+)?[^'"`;]*?from\s+['"]([^'"]+)['"]/gm)) {
    const to = match[2] as string;
    found.push({ to: to.startsWith('.') ? relative(root, resolve(root, dirname(path), to)) : to, isTypeOnly: match[1] !== undefined });
  }
  for (const match of text.matchAll(/(?:^|[^.\w'"`])import\s*\(?\s*['"]([^'"]+)['"]/gm)) {
    const to = match[1] as string;
    found.push({ to: to.startsWith('.') ? relative(root, resolve(root, dirname(path), to)) : to, isTypeOnly: false });
  }
  return found;
}

function read(path: string): SourceFile {
  const text = readFileSync(path, 'utf8');
  const short = relative(root, path);
  return { path: short, text, imports: importsIn(text, short) };
}

function walk(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => (entry.isDirectory() ? (entry.name === 'node_modules' || entry.name === 'dist' ? [] : walk(join(folder, entry.name))) : [join(folder, entry.name)]));
}
