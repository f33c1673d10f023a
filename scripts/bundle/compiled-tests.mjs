// The tests, and what they test, as modules that Node loads by itself. The test runner's own way of loading sources asks
// for every module by a message, twice where two processes run, and calls everything imported by a getter: that takes a
// third of the tests' time.
import { readdirSync, rmSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import { unlessPassed } from '../passed-before.mjs';
import { digestOfFiles } from './sources-as-they-are.mjs';
import { templates } from './templates.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');

const OWN_ADDRESS = /\bimport\.meta\.(url|dirname)\b/g;

/** A module goes on finding what lies beside its source: samples, workers, files of the project. */
const whereItsSourceIs = {
  name: 'nightledger-own-address',
  enforce: 'pre',
  // Filters are applied where the modules are read: a call for each of a thousand modules takes longer than the work.
  transform: {
    filter: { id: { exclude: /node_modules/ }, code: OWN_ADDRESS },
    handler(code, id) {
      const address = { url: pathToFileURL(id).href, dirname: dirname(id) };
      return { code: code.replaceAll(OWN_ADDRESS, (_, which) => JSON.stringify(address[which])), map: null };
    },
  },
};

/** A library of seven hundred modules that comes as one file too. */
const inOneFile = {
  name: 'nightledger-one-file',
  enforce: 'pre',
  resolveId: {
    filter: { id: /^@cantoo\/pdf-lib$/ },
    handler: (id) => ({
      id: pathToFileURL(join(root, 'node_modules', id, 'dist/pdf-lib.esm.js')).href,
      external: 'absolute',
    }),
  },
};

/**
 * What many tests share stands in two files: a thousand small ones are each found, read and bound by themselves. What
 * runs anew for each file of tests is not among it: a shared module runs once in a process.
 */
const SHARED = [
  { name: 'program', test: /[\\/]src[\\/]/ },
  { name: 'support', test: /[\\/]tests[\\/](?!.*(?:\.test|[\\/]before-each-file)\.ts$)/ },
];

/**
 * Compiles modules: each entry to a file of its own, what they share beside them, so that it stays shared. A module runs
 * when it is first imported, as it would by itself.
 *
 * @param {string} from folder whose inner folders are kept
 * @param {string} outDir where they go; what was there goes
 * @param {readonly string[]} entries paths below `from`, of TypeScript; what they import comes along
 */
export async function compileModules(from, outDir, entries) {
  rmSync(outDir, { recursive: true, force: true });
  await build({
    root: from,
    configFile: false,
    envDir: false,
    publicDir: false,
    logLevel: 'error',
    plugins: [whereItsSourceIs, inOneFile, templates(from)],
    ssr: { external: true },
    build: {
      ssr: true,
      outDir,
      target: 'node20',
      minify: false,
      emptyOutDir: false,
      reportCompressedSize: false,
      rolldownOptions: {
        input: Object.fromEntries(entries.map((path) => [path.replace(/\.ts$/, ''), join(from, path)])),
        output: {
          entryFileNames: '[name].mjs',
          chunkFileNames: 'shared/[name].mjs',
          format: 'es',
          strictExecutionOrder: true,
          codeSplitting: { groups: SHARED },
        },
      },
    },
  });
}

/** What the compiled tests are made of. */
const FOLDERS = ['src', 'templates', 'tests', 'scripts/bundle'];

/**
 * Compiles every test of the project, unless they have been compiled from the same files before.
 *
 * @param {string} outDir an absolute path
 * @param {readonly string[]} alsoCompiled files that the runner loads besides
 */
export async function compileTests(outDir, alsoCompiled) {
  // In the folder that is emptied first: what was compiled only in part is compiled again.
  await unlessPassed(
    join(outDir, 'compiled-from'),
    () => `${digestOfFiles(root, FOLDERS)} ${alsoCompiled}`,
    async () => {
      const tests = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
        .filter((path) => path.endsWith('.test.ts'))
        .map((path) => ['tests', ...path.split(sep)].join('/'));
      await compileModules(root, outDir, [...tests, ...alsoCompiled]);
      return { passed: true };
    },
  );
}
