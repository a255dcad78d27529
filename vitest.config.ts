import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['core/**/*.test.ts', 'catalogue/**/*.test.ts', 'cli/**/*.test.ts', 'checks/**/*.check.ts', 'checks/**/*.test.ts'],
    testTimeout: 30_000,
  },
});
