import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const beside = (...rooms: string[]): string[] => rooms.flatMap((room) => [`${room}/**/*.test.ts`, `${room}/**/*.test.tsx`]);
/** Tests of what draws: the layout engine wants a world of its own. */
const drawing = ['checks/golden/**', 'checks/book/**'];

export default defineConfig({
  test: {
    // the runner would keep one core for itself; with two cores that is half of the machine
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        test: {
          // pure rooms need no world of their own for each file: their modules are read once
          name: 'rooms', testTimeout: 60_000, isolate: false, sequence: { groupOrder: 0 },
          include: [...beside('core', 'catalogue', 'server', 'cli'), 'checks/**/*.check.ts', 'checks/**/*.test.ts'],
          exclude: ['checks/e2e/**', ...drawing],
        },
      },
      { test: { name: 'drawings', testTimeout: 60_000, sequence: { groupOrder: 0 }, include: [...beside('sheets', 'study', 'book', 'web'), ...drawing.map((folder) => `${folder}/*.{check,test}.ts`)] } },
      // after everything else: a browser and its worker want the cores for themselves
      { test: { name: 'screen', testTimeout: 120_000, hookTimeout: 120_000, sequence: { groupOrder: 1 }, include: ['checks/e2e/**/*.test.ts'] } },
    ],
  },
});
