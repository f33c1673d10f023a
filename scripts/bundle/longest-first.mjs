// The order in which the files of tests are run: those that take longest first, so that no worker is still busy with one
// of them when the others have nothing left to do.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { BaseSequencer } from 'vitest/node';
import { root } from '../prepare.mjs';
import { shareOut } from './halves.mjs';

/** The longest, in their order; what a fresh clone cannot know, for it has no run behind it. */
const LONGEST = [
  'page/pages',
  'hostile/crowds',
  'package/pack',
  'hostile/full-disk',
  'cli/process',
  'hostile/killed',
  'gather/dialects/draft',
  'gather/dialects/strangers',
  'cli/interrupted',
  'findings/followed/habits',
  'cli/strange-nights',
  'plan/cli',
  'hostile/code-execution',
].map((name) => `tests/${name}.test`);

for (const name of LONGEST)
  if (!existsSync(join(root, `${name}.ts`))) throw new Error(`${name} is among the longest tests, and there is none`);

const placeOf = ({ moduleId }) => {
  const place = LONGEST.findIndex((name) => moduleId.includes(`/${name}.`));
  return place < 0 ? LONGEST.length : place;
};

export class LongestFirst extends BaseSequencer {
  async sort(files) {
    const sorted = await super.sort(files);
    const longestFirst = sorted.toSorted((a, b) => placeOf(a) - placeOf(b));
    shareOut(longestFirst);
    return longestFirst;
  }
}
