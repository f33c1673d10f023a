/** A shared page has the limits of the whole one, and advises the same rules where the sky has no say in them. */
import { describe, expect, it } from 'vitest';
import { isReplayed, type Night, type Replay } from '../../src/model/index.js';
import { mostRecoverableFirst } from '../../src/findings/index.js';
import { shareNight } from '../../src/share.js';
import { anyNight } from '../support/any-night.js';
import { replayedNight } from '../support/replayed-night.js';
import { some } from '../support/runs.js';

const NIGHTS: readonly (readonly [string, () => Night | Promise<Night>])[] = [
  ...some(['twin-night', 'two-hours'], 1).map((name) => [name, () => replayedNight(name)] as const),
  // With read noise in the rig file, so that sky and read noise have asked for longer subs.
  ...some([44, 22, 26, 28, 34, 50, 54, 6, 2], 1).map((seed) => [`any night ${seed}`, () => anyNight(seed)] as const),
];

function replayOf({ replay }: Night): Replay {
  if (!isReplayed(replay)) throw new Error('not replayed');
  return replay;
}

describe.each(NIGHTS)('the replay of a shared night: %s', (_name, make) => {
  it('marks the same rules as outside the limits, and has the same best', async () => {
    const night = await make();
    const copy = shareNight(night);
    const [whole, shared] = [replayOf(night), replayOf(copy)];
    const isOfSky = night.accounts.lights.some((f) =>
      f.causes.some(({ kind }) => kind === 'low' || kind === 'twilight'),
    );
    expect(shared.doubts.some((doubt) => doubt.includes('left out of the shared edition'))).toBe(isOfSky);
    expect(shared.whatIfs.map(({ id }) => id)).toEqual(whole.whatIfs.map(({ id }) => id));
    const ofSubs = ({ whatIfs }: Replay) =>
      whatIfs.map(({ id, outside, newDarks }) => [id, outside.filter((why) => !why.startsWith('leaves')), newDarks]);
    expect(ofSubs(shared)).toEqual(ofSubs(whole));
    if (!isOfSky) expect(shared.best?.settings).toEqual(whole.best?.settings);
    // What is left of the findings stands in the order of the whole page.
    const { ranked } = copy.findings;
    // Without the air mass more stars seem to have grown than have.
    const seldom = ({ findings }: Night) => findings.ranked.filter(({ id }) => id === 'refocus-too-seldom').length;
    expect(seldom(copy)).toBeLessThanOrEqual(seldom(night));
    expect(ranked).toEqual([...ranked].sort(mostRecoverableFirst));
  });
});
