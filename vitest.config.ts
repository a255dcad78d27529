import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const beside = (...rooms: string[]): string[] => rooms.flatMap((room) => [`${room}/**/*.test.ts`, `${room}/**/*.test.tsx`]);

export default defineConfig({
  test: {
    // the runner would keep one core for itself; with two cores that is half of the machine
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        // React as the program has it: the one for development takes a stack for every element
        oxc: { jsx: { runtime: 'automatic', development: false } },
        test: {
          env: { NODE_ENV: 'production' },
          // what is read, compiled and analysed once serves all files of a worker
          name: 'rooms', testTimeout: 60_000, isolate: false, sequence: { groupOrder: 0 },
          // a sixth of the time went into collecting young garbage
          execArgv: ['--max-semi-space-size=64'],
          include: [...beside('core', 'catalogue', 'server', 'cli', 'sheets', 'study', 'book', 'web'), 'checks/**/*.check.ts', 'checks/**/*.test.ts'],
          exclude: ['checks/e2e/**'],
        },
      },
      // after everything else: a browser and its worker want the cores for themselves
      { test: { name: 'screen', testTimeout: 120_000, hookTimeout: 120_000, isolate: false, sequence: { groupOrder: 1 }, include: ['checks/e2e/**/*.test.ts'] } },
    ],
  },
});
