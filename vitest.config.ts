import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: [
      'packages/**/*.test.{ts,tsx}',
      'apps/**/*.test.{ts,tsx}',
      'tests/outside/**/*.test.ts',
      'tests/cli/**/*.test.ts',
      'tests/server/**/*.test.ts',
      'tests/*.test.ts',
    ],
    exclude: ['**/node_modules/**', '**/dist/**'],
    testTimeout: 60_000,
    // Several tests mostly wait (servers killed and started again): one worker less than cores would wait with them.
    maxWorkers: 2,
  },
});
