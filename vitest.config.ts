import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { templates } from './scripts/bundle/templates.mjs';
import { EXPRESSIONS_COMPILED, OPTIMIZED_LATE } from './scripts/engine.mjs';
import { quickTemporaryFolder } from './tests/support/quick-folder.mjs';

/** Files that start a browser or a process, need the compiled program, or are attacks, whose memory is measured. */
const STARTING = [
  'tests/hostile/**/*.test.ts',
  'tests/page/**/*.test.ts',
  'tests/report/pdf/**/*.test.ts',
  'tests/cli/**/*.test.ts',
  'tests/package/**/*.test.ts',
  'tests/progress/cli.test.ts',
  'tests/stars/measure-stars.test.ts',
];

/** Loaded anew before each file of tests: one module, for each costs some milliseconds hundreds of times. */
export const SET_UP_OF_EACH_FILE = 'tests/support/before-each-file';

/** How the tests are run, from their sources or compiled (vitest.compiled.config.ts). */
export const RUNNING = {
  pool: 'forks',
  maxWorkers: 2,
  execArgv: [
    // Short-lived objects by the million: fewer collections of a larger young space cost less, and least where the
    // workers, which have all cores to do, do not also divide them among helpers.
    '--min-semi-space-size=16',
    '--max-semi-space-size=128',
    '--single-threaded-gc',
    // What all files share is a hundred megabytes and stays: it is not gone through each time that a little has been
    // added to it.
    '--initial-old-space-size=500',
    // Most code of a test runs a few times: too seldom to be found worth compiling, often enough that it is.
    '--always-sparkplug',
    OPTIMIZED_LATE,
    EXPRESSIONS_COMPILED,
    // A function is optimized with less of what it calls: code of whole stages is compiled for runs that are over soon.
    '--max-inlined-bytecode-size-cumulative=200',
  ],
  // Modules are loaded once for all files of a worker. A test that changes what others see undoes it.
  isolate: false,
} as const;

export default defineConfig({
  plugins: [templates(fileURLToPath(new URL('.', import.meta.url)))],
  test: {
    ...RUNNING,
    // No test fails for a busy machine.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      reporter: ['text-summary', 'html', 'lcov'],
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'programs',
          include: STARTING,
          // The program compiled, where it is older than its sources; the other tests do without it.
          globalSetup: ['tests/support/set-up.mjs'],
          setupFiles: [`${SET_UP_OF_EACH_FILE}.ts`],
          // A browser prints a long night in seconds on an idle machine, and in many on a busy one.
          testTimeout: 240_000,
          hookTimeout: 240_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: STARTING,
          setupFiles: [`${SET_UP_OF_EACH_FILE}.ts`],
          env: quickTemporaryFolder(),
        },
      },
    ],
  },
});
