// Compiles the projects in the order of their references, then joins the command line into a few files, so that it starts fast.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bin, ready, root, run } from './ready.mjs';

export async function build() {
  ready();
  run(bin('tsc'), ['-b']);
  rmSync(join(root, 'dist/program'), { recursive: true, force: true });
  const esbuild = await import(pathToFileURL(join(root, 'node_modules/esbuild/lib/main.js')).href);
  await esbuild.build({
    entryPoints: ['main', 'sample-worker'].map((name) => join(root, `dist/cli/${name}.js`)),
    outdir: join(root, 'dist/program'), bundle: true, splitting: true, format: 'esm', platform: 'node', target: 'node20', logLevel: 'warning',
    external: ['write-file-atomic'],
    // commander is CommonJS and asks for node's own modules by require
    banner: { js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);" },
  });
}

if (process.argv[1]?.endsWith('build.mjs')) await build();
