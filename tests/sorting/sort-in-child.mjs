// Sorts a plan in a process of its own, which a test can kill: node sort-in-child.mjs JOB.json
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const { plan, session, tree, kinds } = JSON.parse(readFileSync(process.argv[2], 'utf8'));
const sort = ({ sortNight }) =>
  sortNight(plan, {
    session,
    tree,
    kinds,
    nowMs: Date.UTC(2026, 9, 15, 8),
    onProgress: (done) => process.stdout.write(`${done}\n`),
  });

// `npm test` has compiled the sources (vitest.compiled.config.ts); else they are loaded as they are.
const { COMPILED_SOURCES: compiled } = process.env;
if (compiled) {
  await sort(await import(pathToFileURL(join(compiled, 'sorting/index.mjs')).href));
} else {
  const { withModule } = await import('../../scripts/load-ts.mjs');
  await withModule('/src/sorting/index.ts', sort);
}
