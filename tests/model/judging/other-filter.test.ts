import { describe, expect, it } from 'vitest';
import { otherFilter } from '../../../src/model/judging/other-filter.js';
import { light } from '../../support/events.js';
import { around, causesBy } from './around.js';
import { stars } from './measured.js';

const frame = light('wren', '21:00:00', 300, { filter: 'Ha' });

describe('another filter’s light', () => {
  it('makes a frame doubtful, with both filters named', () => {
    const [cause] = causesBy(otherFilter, frame, around({ stars: stars({ takenThrough: 'L' }) }));
    expect(cause).toMatchObject({ verdict: 'doubtful', kind: 'other-filter' });
    expect(cause?.evidence).toMatch(/^it names Ha and has the starlight and the sky of the frames through L,/);
    expect(causesBy(otherFilter, frame, around({ stars: stars({}) }))).toEqual([]);
  });
});
