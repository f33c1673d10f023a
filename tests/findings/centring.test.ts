import { describe, expect, it } from 'vitest';
import { centring } from '../../src/findings/centring.js';
import { act, ask, found, lights, minutes, nightOf } from './support.js';

/** Blocks of three subs on both trains; before each, but for the first, six minutes of centring. */
function night(blocks: number, { target = (_: number): string => 'NGC 281', slews = false, centreSeconds = 360 } = {}) {
  const BLOCK_S = 3 * 303;
  const plan = Array.from({ length: blocks }, (_, i) => {
    const from = i * (BLOCK_S + centreSeconds);
    const block = { from, seconds: 300, count: 3, target: target(i) };
    return {
      frames: ['heron', 'wren'].flatMap((train) => lights(train, block)),
      activities: [
        ...(slews ? [act('slew', from - centreSeconds, from - centreSeconds + 20)] : []),
        act('centre', from - centreSeconds + (slews ? 20 : 0), from - 1),
      ],
    };
  });
  return nightOf({ frames: plan.flatMap((p) => p.frames), activities: plan.flatMap((p) => p.activities) });
}

describe('a target that is centred again', () => {
  it('is found with the time of every train, and no promise', () => {
    const [finding, ...rest] = found(centring, night(6));
    expect(rest).toEqual([]);
    // The first centring belongs to the target’s begin; the others took 359 s on each of two trains.
    expect(finding?.title).toMatch(/^The target was centred again 5 times, which took (?:29|30) min/);
    expect(minutes(finding?.costMs)).toBeCloseTo((5 * 2 * 359) / 60, 1);
    // Whether the field would have stayed without it nobody knows.
    expect(finding).not.toHaveProperty('winMs');
  });

  it('is not found after a slew, for another target, or where it takes no time to speak of', () => {
    expect(found(centring, night(6, { slews: true }))).toEqual([]);
    expect(found(centring, night(6, { target: (i) => (i % 2 ? 'NGC 281' : 'IC 1396') }))).toEqual([]);
    expect(found(centring, night(6, { centreSeconds: 40 }))).toEqual([]);
  });

  it('is not assessed without a log', () => {
    expect(ask(centring, nightOf({ frames: night(3).accounts.lights, headersOnly: true }))).toEqual({
      notAssessed: 'an event log',
    });
  });
});
