import { describe, expect, it } from 'vitest';
import { DEFAULT_RULES, fewStarsNotices } from '../../../../src/model/index.js';
import { light } from '../../../support/events.js';
import { stars } from '../measured.js';

function notices(counts: readonly number[], by: 'full' | 'strips' = 'full'): string[] {
  const lights = counts.map((_, i) => ({ ...light('wren', '21:00:00', 300), id: `frame-${i}` }));
  return fewStarsNotices({
    gathered: { rules: DEFAULT_RULES },
    timeline: { frames: lights },
    stars: { frames: Object.fromEntries(counts.map((count, i) => [`frame-${i}`, { ...stars({ count }), by }])) },
  }).map(({ message }) => message);
}

describe('a train with few stars all night', () => {
  it('is named, with what helps', () => {
    const few = [5, 6, 4, 5, 5, 9, 5];
    expect(notices(few)[0]).toMatch(/^wren’s frames hold 5 stars in the median; with fewer than 10 .* Look at them/);
    expect(notices(few, 'strips')[0]).toContain('--stars full');
  });

  it('is none where the best frames have enough, as under cloud, or where too few were measured', () => {
    expect(notices([40, 38, 35, 2, 3, 1, 0, 2, 3])).toEqual([]);
    expect(notices([5, 5, 5])).toEqual([]);
  });
});
