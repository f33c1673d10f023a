// How vite bundles the program, and stages of it for the benchmarks.
import { normalizePath } from 'vite';
import { ascii } from './ascii.mjs';
import { libraries } from './libraries.mjs';

/**
 * Options of vite for a bundle that Node runs, its libraries inside. Its modules are of the kind that `require` loads:
 * they start sooner than others, and what is compiled of them can be kept (`src/cli/compiled-modules.ts`).
 *
 * @param {string} root the project's folder
 * @param {{ outDir: string, input: Record<string, string>, external?: readonly string[], plugins?: readonly object[] }} what
 *   `input` is each start file by its name in `outDir`; what is `external` is imported where it is installed
 * @returns {import('vite').InlineConfig & { plugins: object[] }}
 */
export function bundled(root, { outDir, input, external = [], plugins = [] }) {
  return {
    root,
    configFile: false,
    envDir: false,
    logLevel: 'error',
    publicDir: false,
    plugins: [libraries(), ascii(), ...plugins],
    ssr: { noExternal: true, external: [...external] },
    build: {
      ssr: true,
      target: 'node20',
      outDir,
      emptyOutDir: false,
      minify: false,
      reportCompressedSize: false,
      rolldownOptions: {
        input,
        // Our modules are what they give: of a folder's index only what is asked for is loaded.
        treeshake: { moduleSideEffects: (id) => !id.startsWith(`${normalizePath(root)}/src/`) },
        output: {
          entryFileNames: '[name].js',
          chunkFileNames: '[name]-[hash].js',
          format: 'cjs',
          dynamicImportInCjs: false,
          // A third of what would be read at every start; the licences among them stand in LICENCES.md.
          comments: false,
        },
      },
    },
  };
}
