import { test } from 'vitest';
import { readFileSync } from 'node:fs';
import { analyse } from '../core/analyse.ts';
import { words } from '../cli/words.ts';
test('x', () => {
  const t0 = performance.now();
  const a = analyse(readFileSync('examples/two-string-coupe/build.yaml', 'utf8'), words);
  console.log('parts', a.build.parts.size, 'runs', a.build.runs.size, 'problems', a.build.problems.map((p) => p.message), 'ms', performance.now() - t0);
  const f = a.findings;
  console.log(f.map((x: any) => x.level).reduce((c: any, l: any) => ({ ...c, [l]: (c[l] ?? 0) + 1 }), {}));
  for (const lv of ['stop', 'fix', 'watch', 'unknown']) for (const x of f) if (x.level === lv) console.log(lv, '|', x.code, '|', x.about.join(','), x.variant ?? '', '|', x.statement);
}, 120000);
