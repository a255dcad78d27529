// Compiles the projects in the order of their references.
import { bin, ready, run } from './ready.mjs';

export function build() {
  ready();
  run(bin('tsc'), ['-b']);
}

if (process.argv[1]?.endsWith('build.mjs')) build();
