import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: '100%',
    reporters: process.env['CI'] ? ['default'] : ['dot'],
  },
});
