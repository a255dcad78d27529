import { defineConfig } from 'vitest/config';

const rooms = ['core', 'catalogue', 'sheets', 'book', 'server', 'web', 'cli'];

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'rooms', testTimeout: 60_000, sequence: { groupOrder: 0 },
          include: [...rooms.flatMap((room) => [`${room}/**/*.test.ts`, `${room}/**/*.test.tsx`]), 'checks/**/*.check.ts', 'checks/**/*.test.ts'],
          exclude: ['checks/e2e/**'],
        },
      },
      // a browser is slow to start and wants a core of its own
      { test: { name: 'screen', testTimeout: 120_000, hookTimeout: 120_000, sequence: { groupOrder: 1 }, include: ['checks/e2e/**/*.test.ts'] } },
    ],
  },
});
