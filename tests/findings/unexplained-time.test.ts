import { describe, expect, it } from 'vitest';
import { unexplainedTime } from '../../src/findings/unexplained-time.js';
import { CLEAR_STARS } from '../support/starry-night.js';
import { act, ask, found, HOUR, lights, minutes, nightOf, span } from './support.js';

const frames = [
  ...lights('heron', { from: 600, seconds: 300, count: 3 }),
  ...lights('heron', { from: 600 + 906 + 1500, seconds: 300, count: 3 }),
];
const window = span(0, 2 * HOUR);

describe('idle time that nothing explains', () => {
  it('is found between the first light and the last', () => {
    const [finding] = found(unexplainedTime, nightOf({ frames, window }));
    // Three frames end at 1506 s; the next begin at 3006 s.
    expect(minutes(finding?.costMs)).toBeCloseTo((3006 - 1506) / 60, 6);
    expect(finding?.title).toBe('heron was idle for 25 min, with no reason in the log');
    // Of its working time, six subs of 300 s with four pauses of 3 s, the train kept the subs.
    expect(minutes(finding?.winMs)).toBeCloseTo((25 * 1800) / 1812, 4);
  });

  it('of all trains at one time has one cause, and is one finding', () => {
    const both = [
      ...frames,
      ...lights('wren', { from: 620, seconds: 200, count: 4 }),
      ...lights('wren', { from: 3020, seconds: 200, count: 4 }),
    ];
    const [finding, ...rest] = found(unexplainedTime, nightOf({ frames: both, window }));
    expect(rest).toEqual([]);
    expect(finding?.title).toMatch(
      /^heron and wren were idle at the same time for 2\d min, with no reason in the logs$/,
    );
    expect(finding?.advice).toContain('Look for a single cause');
    expect(minutes(finding?.costMs)).toBeCloseTo((3006 - 1506 + 3020 - 1429) / 60, 6);
    // Idle by turns: each has its own reason.
    const turns = [
      ...frames,
      ...lights('wren', { from: 620, seconds: 200, count: 14 }),
      ...lights('wren', { from: 4600, seconds: 200, count: 4 }),
    ];
    expect(found(unexplainedTime, nightOf({ frames: turns, window }))).toHaveLength(2);
  });

  it('names a meridian flip that the stars show', () => {
    const night = nightOf({ frames, window });
    const stars = Object.fromEntries(
      frames.map(({ id }, i) => {
        const shift = { x: 0, y: 0, rotation: i < 3 ? 0.1 : -179.9, matched: 20 };
        return [id, { ...CLEAR_STARS, shift }] as const;
      }),
    );
    const turned = { ...night, stars: { frames: stars, pairs: [], pointings: [], warnings: [] } };
    const said = expect.stringContaining('a meridian flip took place then');
    expect(found(unexplainedTime, turned)[0]?.evidence).toContainEqual(said);
    expect(found(unexplainedTime, night)[0]?.evidence).not.toContainEqual(said);
  });

  it('is not found where a hold explains it', () => {
    expect(
      found(unexplainedTime, nightOf({ frames, window, activities: [act('hold', 1506, 3006, { why: 'cloud' })] })),
    ).toEqual([]);
  });

  it('does not count the pauses between frames', () => {
    expect(
      found(
        unexplainedTime,
        nightOf({ frames: lights('heron', { from: 0, seconds: 60, count: 60, pause: 20 }), window }),
      ),
    ).toEqual([]);
  });

  it('asks for the logs where there are only headers', () => {
    const [finding] = found(unexplainedTime, nightOf({ frames, window, headersOnly: true }));
    expect(finding?.winMs).toBeUndefined();
    expect(finding).toMatchObject({ confidence: 'low', advice: expect.stringContaining('Add the capture logs') });
  });

  it('is not assessed without lights', () => {
    expect(ask(unexplainedTime, nightOf({ frames: [] }))).toEqual({ notAssessed: 'lights' });
  });
});
