import { describe, expect, it } from 'vitest';
import { DEFAULT_RULES, smallGroupNotices } from '../../../../src/model/index.js';
import { light } from '../../../support/events.js';
import { stars } from '../measured.js';

/** Frames of train wren, so many a filter. */
function notices(frames: Readonly<Record<string, number>>, count = 60): string[] {
  const lights = Object.entries(frames).flatMap(([filter, many]) =>
    Array.from({ length: many }, (_, i) => ({
      ...light('wren', '21:00:00', 300),
      id: `${filter}-${i}`,
      target: 'NGC 281',
      filter,
    })),
  );
  return smallGroupNotices({
    gathered: { rules: DEFAULT_RULES },
    timeline: { frames: lights },
    stars: { frames: Object.fromEntries(lights.map(({ id }) => [id, stars({ count })])) },
  }).map(({ message }) => message);
}

describe('a group of fewer than six frames', () => {
  it('is named with what it was compared with', () => {
    expect(notices({ Ha: 8, OIII: 5 })).toEqual([
      'Fewer than 6 frames with enough stars on wren: NGC 281, OIII (5 frames). They were compared with all 13 ' +
        'frames of wren: a filter with larger stars than the rest may be called swollen.',
    ]);
    expect(notices({ Ha: 3, OIII: 2 })).toEqual([
      'Fewer than 6 frames with enough stars on wren: NGC 281, Ha (3 frames) and NGC 281, OIII (2 frames). Their ' +
        'stars could not be compared: trails and sizes are not judged by the pixels.',
    ]);
  });

  it('is not spoken of where all have six, or no frame has stars', () => {
    expect(notices({ Ha: 6, OIII: 7 })).toEqual([]);
    expect(notices({ Ha: 3 }, 9)).toEqual([]);
  });
});
