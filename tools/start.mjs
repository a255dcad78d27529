// npm start: installs if needed, builds, checks the demo van and opens the workbench on a copy of it. With arguments: any command.
import { cpSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { build } from './build.mjs';
import { root, run } from './ready.mjs';

await build();
const program = join(root, 'dist/program/main.cjs');
const args = process.argv.slice(2);
if (args.length > 0) process.exit(run(process.execPath, [program, ...args], { mayFail: true }));

// a copy, so that trying things out changes no file of the project; it stays as it was left
const demo = join(root, 'demo', 'bakery-van');
if (!existsSync(demo)) cpSync(join(root, 'examples/bakery-van'), demo, { recursive: true });
// 1 means that something is at `stop`: the job was done all the same
if (run(process.execPath, [program, 'check', demo], { mayFail: true }) === 2) process.exit(2);
console.log('');
process.exit(run(process.execPath, [program, 'open', demo], { mayFail: true }));
