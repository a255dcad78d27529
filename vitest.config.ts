import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const rooms = ['core', 'catalogue', 'sheets', 'book', 'server', 'web', 'cli'];

export default defineConfig({
  test: {
    // the runner would keep one core for itself; with two cores that is half of the machine
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        test: {
          name: 'rooms', testTimeout: 60_000, sequence: { groupOrder: 0 },
          include: [...rooms.flatMap((room) => [`${room}/**/*.test.ts`, `${room}/**/*.test.tsx`]), 'checks/**/*.check.ts', 'checks/**/*.test.ts'],
          exclude: ['checks/e2e/**'],
        },
      },
      // after everything else: a browser and its worker want the cores for themselves
      { test: { name: 'screen', testTimeout: 120_000, hookTimeout: 120_000, sequence: { groupOrder: 1 }, include: ['checks/e2e/**/*.test.ts'] } },
    ],
  },
});
