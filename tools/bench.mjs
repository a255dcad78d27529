// npm run bench: every speed claim, as a ratio against a reference measured in the same run. Names as arguments choose.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from './build.mjs';
import { bin, root, run } from './ready.mjs';

await build();
mkdirSync(join(root, 'dist/bench'), { recursive: true });
const all = ['process', 'analysis', 'solve-sweep', 'solve-transient', 'faults', 'power-up', 'edit-on-screen'];
const chosen = process.argv.slice(2);
let missed = 0;
for (const name of chosen.length > 0 ? chosen : all) {
  run(bin('tsc'), ['-p', 'tsconfig.bench.json']);
  const { run: measure } = await import(pathToFileURL(join(root, `dist/bench/${name}.js`)).href);
  for (const { name: claim, unit = 'ms', ours, reference, referenceName, wanted, isMet } of await measure(root)) {
    if (!isMet) missed++;
    const ratio = unit !== 'ms' ? 'against' : ours <= reference ? `${(reference / ours).toFixed(1)} times faster than` : `${(ours / reference).toFixed(1)} times as long as`;
    console.log(`${isMet ? 'met   ' : 'MISSED'}  ${claim}: ${ours.toFixed(1)} ${unit}, ${ratio} ${referenceName} (${reference.toFixed(1)} ${unit}); wanted ${wanted}`);
  }
}
process.exit(missed === 0 ? 0 : 1);
