// Bundles the program into dist/: one start file, the rest loaded when asked for. The templates are compiled, the fonts
// copied, and the libraries are inside, so that what is installed is the program and the prebuilt canvas alone.
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { digestOfSources } from './bundle/digest.mjs';
import { licences } from './bundle/licences.mjs';
import { bundled } from './bundle/options.mjs';
import { templates } from './bundle/templates.mjs';
import { writeTypes } from './bundle/types.mjs';

const root = fileURLToPath(new URL('..', import.meta.url)).replace(/[\\/]$/, '');
const require = createRequire(import.meta.url);
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

// Types are checked here for whoever builds; the tests check them by themselves.
if (!process.argv.includes('--no-check')) {
  const tsc = spawnSync(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), '--noEmit', '-p', root], {
    stdio: 'inherit',
  });
  if (tsc.status !== 0) process.exit(tsc.status ?? 1);
}

rmSync(join(root, 'dist'), { recursive: true, force: true });
const define = {
  __NIGHTLEDGER_VERSION__: JSON.stringify(version),
  __NIGHTLEDGER_BUILD__: JSON.stringify(digestOfSources(root)),
};
await build({
  ...bundled(root, {
    outDir: 'dist',
    input: {
      // Loaded by the start file, with what is kept of its compiled code.
      main: join(root, 'src/cli/main.ts'),
      // Started as a thread by its name, from beside the module that does.
      'star-worker': join(root, 'src/stars/star-worker.ts'),
      'chart-worker': join(root, 'src/report/charts/chart-worker.ts'),
      'header-worker': join(root, 'src/gather/fits/header-worker.ts'),
      'digest-worker': join(root, 'src/gather/lines/digest-worker.ts'),
      'sum-worker': join(root, 'src/record/archive/sum-worker.ts'),
      // Imported by other programs (`exports` in package.json).
      record: join(root, 'src/public/record.ts'),
      archive: join(root, 'src/public/archive.ts'),
    },
    external: ['@napi-rs/canvas'],
    plugins: [templates(root), licences()],
  }),
  define,
});
// By itself, so that it shares no file with what it loads.
await build({ ...bundled(root, { outDir: 'dist', input: { cli: join(root, 'src/cli.ts') } }), define });
writeFileSync(join(root, 'dist/package.json'), '{ "type": "commonjs" }\n');

writeTypes(root, ['public/record.ts', 'public/archive.ts'], join(root, 'dist/types'));

for (const name of ['source-sans-3', 'source-serif-4']) {
  const from = dirname(require.resolve(`@fontsource/${name}/package.json`));
  const to = join(root, 'dist/fonts', name);
  for (const file of readdirSync(join(from, 'files')).filter((f) => /-(400|600)-normal\.woff2$/.test(f)))
    cpSync(join(from, 'files', file), join(to, 'files', file));
  for (const file of ['unicode.json', 'LICENSE']) cpSync(join(from, file), join(to, file));
}
chmodSync(join(root, 'dist/cli.js'), 0o755);
