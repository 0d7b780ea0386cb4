import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take longest, whatever their size: begun first, so that no core is left with one of them at the end. */
const LONG = /golden|print-pattern|streams|outputs|hostile-input|accuracy|join-scans|mixed-/;

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return files.toSorted((one, other) => Number(LONG.test(other.moduleId)) - Number(LONG.test(one.moduleId)));
  }
}

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: '100%',
    // Modules hold no state that a test changes, so files may share them, and code that has run is fast. Processes, as tests change folder.
    isolate: false,
    pool: 'forks',
    sequence: { sequencer: LongFirst },
    reporters: process.env['CI'] ? ['default'] : ['dot'],
  },
});
