import { describe, expect, it } from 'vitest';
import { low } from '../../../src/model/judging/low.js';
import { light } from '../../support/events.js';
import { around, causesBy, sky } from './around.js';

describe('a low target', () => {
  it('makes a frame doubtful below the limit of 25° (common practice, no source)', () => {
    expect(causesBy(low, light('wren', '21:00:00', 300), around({ sky: sky({ altitudeDeg: 24.9 }) }))).toMatchObject([
      { verdict: 'doubtful', kind: 'low' },
    ]);
    expect(causesBy(low, light('wren', '21:00:00', 300), around({ sky: sky({ altitudeDeg: 25 }) }))).toEqual([]);
  });
  it('is none in daylight, where time or place is wrong', () => {
    const high = sky({ altitudeDeg: 7, sunAltitudeDeg: 38 });
    expect(causesBy(low, light('wren', '21:00:00', 300), around({ sky: high }))).toEqual([]);
  });
  it('is not assessed when its place is unknown', () => {
    expect(causesBy(low, light('wren', '21:00:00', 300), around())).toEqual([]);
  });
});
