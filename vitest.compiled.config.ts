// What `npm test` and `npm run thorough` run: the tests compiled beforehand, loaded by Node itself. While working,
// `npx vitest run FILE` reads the sources (vitest.config.ts).
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { compileTests } from './scripts/bundle/compiled-tests.mjs';
import { inHalves } from './scripts/bundle/halves.mjs';
import { LongestFirst } from './scripts/bundle/longest-first.mjs';
import { compileBeside } from './scripts/prepare.mjs';
import { quickTemporaryFolder } from './tests/support/quick-folder.mjs';
import { RUNNING, SET_UP_OF_EACH_FILE } from './vitest.config.js';

const root = fileURLToPath(new URL('.', import.meta.url));
const compiled = join(root, '.cache/compiled');
// The sort is also started as a process of its own, which is killed. The program, which the set-up would compile, is
// compiled meanwhile: neither keeps two cores busy.
await Promise.all([compileTests(compiled, [`${SET_UP_OF_EACH_FILE}.ts`, 'src/sorting/index.ts']), compileBeside()]);

export default defineConfig({
  root: compiled,
  cacheDir: join(root, '.cache/vitest'),
  test: {
    ...RUNNING,
    pool: inHalves,
    execArgv: [...RUNNING.execArgv, `--require=${join(root, 'scripts/bundle/without-hooks.cjs')}`],
    runner: join(root, 'scripts/bundle/test-runner.mjs'),
    include: ['tests/**/*.test.mjs'],
    exclude: [],
    sequence: { sequencer: LongestFirst },
    globalSetup: [join(root, 'tests/support/set-up.mjs')],
    setupFiles: [join(compiled, `${SET_UP_OF_EACH_FILE}.mjs`)],
    // A browser prints a long night in seconds on an idle machine, and in many on a busy one.
    testTimeout: 240_000,
    hookTimeout: 240_000,
    env: { ...quickTemporaryFolder(), COMPILED_SOURCES: join(compiled, 'src') },
    experimental: { viteModuleRunner: false, nodeLoader: false },
  },
});
