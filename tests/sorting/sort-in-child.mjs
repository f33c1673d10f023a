// Sorts a plan in a process of its own, which a test can kill: node sort-in-child.mjs JOB.json
import { readFileSync } from 'node:fs';
import { withModule } from '../../scripts/load-ts.mjs';

const { plan, session, tree, kinds } = JSON.parse(readFileSync(process.argv[2], 'utf8'));
await withModule('/src/sorting/index.ts', ({ sortNight }) =>
  sortNight(plan, {
    session,
    tree,
    kinds,
    nowMs: Date.UTC(2026, 9, 15, 8),
    onProgress: (done) => process.stdout.write(`${done}\n`),
  }),
);
