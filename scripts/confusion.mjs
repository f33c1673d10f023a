// Verdicts against truth: random nights drawn as pixels, measured and judged; prints the tables of docs/verdicts.md.
//   node scripts/confusion.mjs [nights] [seed]
import { withModule } from './load-ts.mjs';

const [nights = 200, seed = 20_000] = process.argv.slice(2).map(Number);
await withModule('/tests/support/confusion/many-nights.ts', async ({ manyNights }) => {
  process.stdout.write(`${await manyNights(nights, seed)}\n`);
});
