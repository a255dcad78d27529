// npm test: installs if needed, compiles, runs every test, and closes with one line `N passed, N failed`.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { readyBrowser } from './browser.mjs';
import { build } from './build.mjs';
import { bin, ready, root, run } from './ready.mjs';

ready();
const browser = readyBrowser();
const report = join(root, 'dist', 'test-report.json');
mkdirSync(join(root, 'dist'), { recursive: true });
rmSync(report, { force: true });

let failed = 0;
let passed = 0;
let skipped = 0;
for (const [what, args] of [['the projects compile', ['-b']], ['the tests compile', ['-p', 'tsconfig.tests.json']]]) {
  const status = run(bin('tsc'), args, { mayFail: true });
  console.log(`${status === 0 ? 'passed' : 'FAILED'}: ${what}`);
  status === 0 ? passed++ : failed++;
}
if (failed === 0) await build();
const status = run(bin('vitest'), ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...process.argv.slice(2)], { mayFail: true, env: { ...process.env, ...(browser ? { CHROMIUM_PATH: browser } : {}) } });
if (existsSync(report)) {
  const result = JSON.parse(readFileSync(report, 'utf8'));
  passed += result.numPassedTests;
  skipped += result.numPendingTests + (result.numTodoTests ?? 0);
  const brokenFiles = result.testResults.filter((file) => file.status === 'failed' && file.assertionResults.every((test) => test.status !== 'failed')).length;
  failed += result.numFailedTests + brokenFiles;
  if (status !== 0 && failed === 0) failed++;
} else failed++;
console.log(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exit(failed === 0 ? 0 : 1);
