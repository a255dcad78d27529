import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const beside = (...rooms: string[]): string[] => rooms.flatMap((room) => [`${room}/**/*.test.ts`, `${room}/**/*.test.tsx`]);

/** Tests of what draws: the layout engine wants a world of its own. */
const drawing = [...beside('sheets/diagram', 'study', 'book', 'checks/book'), 'checks/golden/*.check.ts', 'web/analysis/*.test.ts'];
// a sixth of the time went into collecting young garbage
const common = { testTimeout: 60_000, execArgv: ['--max-semi-space-size=64'], env: { NODE_ENV: 'production' }, sequence: { groupOrder: 0 } };
/** React as the program has it: the one for development takes a stack for every element. */
const oxc = { jsx: { runtime: 'automatic', development: false } } as const;

export default defineConfig({
  test: {
    // the runner would keep one core for itself; with two cores that is half of the machine
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        oxc,
        test: {
          // what is read, compiled and analysed once serves all files of a worker
          ...common, name: 'rooms', isolate: false,
          include: [...beside('core', 'catalogue', 'server', 'cli', 'sheets', 'web'), 'checks/**/*.check.ts', 'checks/**/*.test.ts'],
          exclude: ['checks/e2e/**', ...drawing],
        },
      },
      { oxc, test: { ...common, name: 'drawings', include: drawing } },
      // after everything else: a browser and its worker want the cores for themselves
      { test: { name: 'screen', testTimeout: 120_000, hookTimeout: 120_000, isolate: false, sequence: { groupOrder: 1 }, include: ['checks/e2e/**/*.test.ts'] } },
    ],
  },
});
