import { describe, expect, it } from 'vitest';
import { guessStamp } from '../../../src/gather/dialects/draft/time/stamp-guess.js';
import { recordsOfDocument } from '../../../src/gather/dialects/draft/layout/document-layout.js';

/** MJD 61322.0 is 2026-10-09 00:00 UTC (IAU: MJD = JD − 2400000.5; MJD 40587.0 is 1970-01-01). */
const mjd = (minutes: number): string => (61322.8 + minutes / 1440).toFixed(6);

describe('Julian dates in a document', () => {
  const spans = Array.from({ length: 12 }, (_, i) => {
    const from = i * 6;
    return `<exposure length="300" open="${mjd(from)}" shut="${mjd(from + 5)}"><file at="${mjd(from + 5.1)}">a${i}</file>
      </exposure><wheel to="L" begin="${mjd(from + 5.2)}" end="${mjd(from + 5.3)}"/>`;
  });

  it('are times of its elements', () => {
    const found = recordsOfDocument(`<night>\n${spans.join('\n')}\n</night>`);
    expect([...(found?.times ?? [])].sort()).toEqual(['at', 'begin', 'open']);
  });

  it.each([
    ['{mjd}', 61322.8],
    ['{julian}', 2461323.3],
  ])('are no counts where the elements inside others stand behind them (%s)', (pattern, first) => {
    const texts = Array.from({ length: 60 }, (_, i) =>
      (first + ((i - (i % 3)) * 4 + (((i % 3) * 5) % 7)) / 1440).toFixed(6),
    );
    expect(guessStamp(texts, { hasBase: true, stated: [] })?.pattern).toBe(pattern);
  });

  it('are none where a counter runs through as many numbers', () => {
    const texts = Array.from({ length: 60 }, (_, i) => (60_000 + i * 30).toFixed(4));
    expect(guessStamp(texts, { hasBase: true, stated: [] })?.pattern).toContain('{elapsed');
  });
});
