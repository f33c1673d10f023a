import { describe, expect, it } from 'vitest';
import { starGap } from '../../src/findings/star-gap.js';
import { act, ask, found, guidingOf, HOUR, lights, nightOf } from './support.js';

const frames = [
  ...lights('heron', { from: 0, seconds: 300, count: 10 }),
  ...lights('wren', { from: 0, seconds: 240, count: 12 }),
];

describe('a lost guide star', () => {
  it('is found with the frames of every train it fell on, and the star’s last signal', () => {
    const activities = [
      act('guiding-on', 0, 640),
      act('star-gap', 640, 685, { why: 'signal too low' }),
      act('guiding-on', 685, HOUR),
    ];
    const [finding] = found(starGap, nightOf({ frames, activities, guiding: guidingOf(0, 640, 5, () => [0.2, 0.2]) }));
    expect(finding).toMatchObject({
      title: 'Guide star lost once, during 2 subs',
      costMs: 540_000,
      frames: 2,
    });
    expect(finding?.evidence).toContain('signal to noise of the star just before: 25');
    expect(finding?.evidence[0]).toContain('for 45 s (signal too low)');
  });

  it('says which frames are only doubtful', () => {
    const activities = [act('guiding-on', 0, 400), act('star-gap', 400, 408), act('guiding-on', 408, HOUR)];
    expect(found(starGap, nightOf({ frames, activities }))[0]?.evidence.join()).toContain(
      '2 of the frames are only doubtful',
    );
  });

  it('is not found where it was lost while every shutter was closed', () => {
    const gap = [
      ...lights('heron', { from: 0, seconds: 300, count: 2 }),
      ...lights('heron', { from: 700, seconds: 300, count: 2 }),
    ];
    expect(
      found(
        starGap,
        nightOf({
          frames: gap,
          activities: [act('guiding-on', 0, 620), act('star-gap', 620, 660), act('guiding-on', 660, HOUR)],
        }),
      ),
    ).toEqual([]);
  });

  it('is not mistaken for a pause', () => {
    expect(
      found(
        starGap,
        nightOf({
          frames,
          activities: [
            act('guiding-on', 0, 400),
            act('guiding-rest', 400, 480, { causedBy: 'heron' }),
            act('guiding-on', 480, HOUR),
          ],
        }),
      ),
    ).toEqual([]);
  });

  it('is not assessed without guiding events', () => {
    expect(ask(starGap, nightOf({ frames }))).toEqual({ notAssessed: 'guiding events in a log' });
  });
});
