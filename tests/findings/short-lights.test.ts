import { describe, expect, it } from 'vitest';
import { shortLights } from '../../src/findings/short-lights.js';
import { found, lights, nightOf } from './support.js';

const header = { askedMs: undefined };
const taken = (from: number, seconds: number, count: number, filter = 'Ha') =>
  lights('heron', { from, seconds, count, filter, more: () => header });

describe('lights shorter than their group', () => {
  it('are told where no log says how long they were meant to be', () => {
    const [finding, ...more] = found(
      shortLights,
      nightOf({
        frames: [...taken(0, 300, 10), ...taken(3100, 71.5, 1), ...taken(3300, 5, 3), ...taken(4000, 60, 9, 'L')],
      }),
    );
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      title: '4 lights of heron are shorter than the others of their target and filter',
      costMs: 0,
      frames: 4,
      price: '1 min 27 s that need darks of another length',
    });
    expect(finding?.evidence).toEqual([
      'NGC 281, Ha: 5 s at 21:55, 21:55, 21:55, where 10 others have 5 min',
      'NGC 281, Ha: 1 min 12 s at 21:51, where 10 others have 5 min',
      'no log says how long they were meant to be',
    ]);
  });

  it('are none where a series is as much of the group, the log asked for them, or no length is usual', () => {
    const asked = lights('heron', { from: 3100, seconds: 5, count: 1, more: () => ({ askedMs: 5000 }) });
    for (const frames of [
      [...taken(0, 300, 10), ...taken(3100, 30, 8)],
      [...taken(0, 300, 10), ...asked],
      [...taken(0, 300, 4), ...taken(1300, 20, 1)],
      taken(0, 300, 10),
    ])
      expect(found(shortLights, nightOf({ frames }))).toEqual([]);
  });
});
