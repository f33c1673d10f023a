import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { scoreLog } from './support/score-folder.js';

const OPEN = join(dirname(fileURLToPath(import.meta.url)), 'strangers', 'open');

// `exposure 200 s, filter Ha, NGC 6888 | begun`: split into cells, a quarter of this log was used, and wrongly.
it('the cells of a row are read as one sentence where they are more so', async () => {
  const { right, wrong, truth } = await scoreLog(OPEN, 'xamgiel.log');
  expect(right / truth).toBeGreaterThan(0.95);
  expect(wrong / truth).toBeLessThan(0.02);
});
