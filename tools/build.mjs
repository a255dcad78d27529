// Compiles the projects in the order of their references, joins the command line into a few files, so that it starts fast, and
// builds the page of the workbench.
import { chmodSync, cpSync, existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bin, ready, root, run } from './ready.mjs';

export async function build() {
  ready();
  run(bin('tsc'), ['-b']);
  const program = join(root, 'dist/program');
  rmSync(program, { recursive: true, force: true });
  const esbuild = await import(pathToFileURL(join(root, 'node_modules/esbuild/lib/main.js')).href);
  await esbuild.build({
    entryPoints: { halfshaft: join(root, 'dist/cli/main.js'), 'sample-worker': join(root, 'dist/cli/sample-worker.js'), 'study-worker': join(root, 'dist/cli/study-worker.js') },
    outdir: program, outExtension: { '.js': '.cjs' }, bundle: true, format: 'cjs', platform: 'node', target: 'node20', logLevel: 'warning',
    // the joined program runs as a script of node:vm, in which import() is not there: packages are required
    supported: { 'dynamic-import': false },
    // only some commands need these; they are read from node_modules when they do
    external: ['write-file-atomic', 'react', 'react-dom', 'elkjs', 'pdfkit', 'hono', '@hono/node-server', 'chokidar', 'open', '@ibm/*'],
    define: { 'import.meta.url': 'fileOfProgram' }, banner: { js: "const fileOfProgram = require('node:url').pathToFileURL(__filename).href;" },
  });
  if (existsSync(join(root, 'web/index.html'))) {
    const { build: buildPage } = await import(pathToFileURL(join(root, 'node_modules/vite/dist/node/index.js')).href);
    await buildPage({ configFile: join(root, 'web/vite.config.ts'), logLevel: 'warn' });
  }
  cpSync(join(root, 'tools/program.cjs'), join(program, 'main.cjs'));
  chmodSync(join(program, 'main.cjs'), 0o755);
  // one run on the demo van shows V8 what is worth keeping; 1 says that the demo has a finding at `stop`
  run(process.execPath, [join(program, 'main.cjs'), 'check', join(root, 'examples/bakery-van')], { stdio: 'ignore', mayFail: true, env: { ...process.env, HALFSHAFT_KEEP_CODE: '1' } });
}

if (process.argv[1]?.endsWith('build.mjs')) await build();
