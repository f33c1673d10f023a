import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexSpans, interval, overlapMs } from '../../src/model/index.js';

const span = fc
  .tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 1, max: 80 }))
  .map(([s, l]) => interval(s, s + l));

describe('an index of intervals', () => {
  it('finds exactly what overlaps, sorted by start', () => {
    fc.assert(
      fc.property(fc.array(span, { maxLength: 30 }), span, (items, asked) => {
        const found = indexSpans(items, (s) => s).touching(asked);
        expect(new Set(found)).toEqual(new Set(items.filter((s) => overlapMs(s, asked) > 0)));
        for (let i = 1; i < found.length; i++) expect(found[i]!.startMs).toBeGreaterThanOrEqual(found[i - 1]!.startMs);
      }),
    );
  });
  it('finds an empty span that lies within', () => {
    expect(indexSpans([interval(5, 5)], (s) => s).touching(interval(5, 6))).toHaveLength(1);
    expect(indexSpans([interval(5, 5)], (s) => s).touching(interval(6, 7))).toHaveLength(0);
  });
});
