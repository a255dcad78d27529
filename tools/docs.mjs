// npm run docs: writes the generated pages again, and takes away pages of codes that are gone.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from './build.mjs';
import { root } from './ready.mjs';

await build();
const { generatedDocs } = await import(pathToFileURL(join(root, 'dist/cli/generated-docs.js')).href);
const pages = generatedDocs();
for (const name of readdirSync(join(root, 'docs/findings'))) if (!pages.has(`docs/findings/${name}`)) rmSync(join(root, 'docs/findings', name));
for (const [path, text] of pages) {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}
console.log(`${pages.size} pages written`);
