import { describe, expect, it } from 'vitest';
import { causeLabel } from '../../../src/report/figures/cause-label.js';
import { place, T0 } from '../../findings/support.js';

describe('what harmed a frame, in a few words', () => {
  it('is daylight where the Sun was up, and twilight below that', () => {
    const under = (sunAltitudeDeg: number) => causeLabel('twilight', { sky: place(T0, 40, { sunAltitudeDeg }) });
    expect([under(38), under(-0.5), under(-1), under(-9)]).toEqual(['daylight', 'daylight', 'twilight', 'twilight']);
    expect(causeLabel('twilight', { sky: null })).toBe('twilight');
    expect(causeLabel('low', { sky: place(T0, 10) })).toBe('target low');
  });
});
