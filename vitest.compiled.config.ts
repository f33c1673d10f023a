// What `npm test` and `npm run thorough` run: the tests compiled beforehand, loaded by Node itself. While working,
// `npx vitest run FILE` reads the sources (vitest.config.ts).
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { compileTests } from './scripts/bundle/compiled-tests.mjs';
import { quickTemporaryFolder } from './tests/support/quick-folder.mjs';
import { RUNNING } from './vitest.config.js';

const root = fileURLToPath(new URL('.', import.meta.url));
const compiled = join(root, '.cache/compiled');
const setUpOfFiles = 'tests/hostile/support/bounded';
await compileTests(compiled, [`${setUpOfFiles}.ts`]);

export default defineConfig({
  root: compiled,
  cacheDir: join(root, '.cache/vitest'),
  test: {
    ...RUNNING,
    include: ['tests/**/*.test.mjs'],
    exclude: [],
    globalSetup: [join(root, 'tests/support/set-up.mjs')],
    setupFiles: [join(compiled, `${setUpOfFiles}.mjs`)],
    // A browser prints a long night in seconds on an idle machine, and in many on a busy one.
    testTimeout: 240_000,
    hookTimeout: 240_000,
    env: quickTemporaryFolder(),
    experimental: { viteModuleRunner: false, nodeLoader: false },
  },
});
