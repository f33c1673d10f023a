// Stages of the program by themselves, bundled as the program is.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { libraries } from '../../scripts/bundle/libraries.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Bundles modules of src into a folder, each by its own path: `gather/fits/index.ts` becomes `gather/fits/index.js`.
 *
 * @param {string} folder is made
 * @param {readonly string[]} modules paths below src
 */
export async function bundle(folder, modules) {
  await build({
    root,
    configFile: false,
    envDir: false,
    logLevel: 'error',
    publicDir: false,
    plugins: [libraries()],
    ssr: { noExternal: true },
    build: {
      ssr: true,
      target: 'node20',
      outDir: folder,
      emptyOutDir: false,
      minify: false,
      reportCompressedSize: false,
      commonjsOptions: { ignoreDynamicRequires: true },
      rollupOptions: {
        input: Object.fromEntries(modules.map((path) => [path.replace(/\.ts$/, ''), join(root, 'src', path)])),
        output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js', format: 'es' },
      },
    },
  });
  writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
}
