import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countOnce } from '../../src/findings/count-once.js';
import type { FindingDraft } from '../../src/findings/finding.js';
import { coveredMs, interval, sum } from '../../src/model/index.js';

const draft = (
  id: string,
  from: number,
  to: number,
  more: Partial<FindingDraft> = {},
): FindingDraft & { id: string } => ({
  id,
  title: `Finding ${id}`,
  costMs: (to - from) * 60_000,
  winMs: (to - from) * 60_000,
  evidence: [`evidence of ${id}`],
  advice: `Advice of ${id}.`,
  confidence: 'high',
  minutes: [{ train: 'heron', span: interval(from * 60_000, to * 60_000) }],
  ...more,
});

describe('minutes counted once', () => {
  it('leave findings on different minutes alone, dearest first', () => {
    expect(countOnce([draft('a', 0, 10), draft('b', 20, 50)]).map((f) => [f.id, f.costMs / 60_000])).toEqual([
      ['b', 30],
      ['a', 10],
    ]);
  });

  it('fold a finding into the dearer one that has its minutes already', () => {
    const [only, ...rest] = countOnce([draft('a', 0, 10), draft('b', 0, 50)]);
    expect(rest).toEqual([]);
    expect(only).toMatchObject({ id: 'b', costMs: 50 * 60_000 });
    expect(only?.evidence).toEqual(['evidence of b', 'About the same minutes: finding a.', 'evidence of a']);
    expect(only?.advice).toBe('Advice of b. Advice of a.');
  });

  it('fold with the shorter advice where there is one', () => {
    expect(countOnce([draft('a', 0, 10, { foldedAdvice: '' }), draft('b', 0, 50)])[0]?.advice).toBe('Advice of b.');
  });

  it('fold without saying a sentence or an evidence twice', () => {
    const alike = { advice: 'Refocus heron. That is sooner.', evidence: ['the cost is counted'] };
    const [only] = countOnce([draft('a', 0, 10, alike), draft('b', 0, 50, { ...alike, advice: 'Refocus heron.' })]);
    expect(only?.advice).toBe('Refocus heron. That is sooner.');
    expect(only?.evidence).toEqual(['the cost is counted', 'About the same minutes: finding a.']);
  });

  it('fold of a sentence that was begun alike what comes after the colon', () => {
    const [only] = countOnce([
      draft('a', 0, 10, { advice: 'Dither every 5 frames: 12 places are enough.' }),
      draft('b', 0, 50, { advice: 'Try this: dither every 5 frames. It wins.' }),
    ]);
    expect(only?.advice).toBe('Try this: dither every 5 frames. It wins. 12 places are enough.');
  });

  it('fold without a rule that the first advice begins with', () => {
    const [only] = countOnce([
      draft('a', 0, 10, { advice: 'Try this: dither every 5 frames. It wins.' }),
      draft('b', 0, 50, { advice: 'Dither every 5 frames: 12 places are enough.' }),
    ]);
    expect(only?.advice).toBe('Dither every 5 frames: 12 places are enough. It wins.');
  });

  it('win back no more than they cost: the rest is won from what others cost', () => {
    const [finding] = countOnce([draft('a', 0, 10, { winMs: 15 * 60_000 })]);
    expect(finding).toMatchObject({ winMs: 10 * 60_000 });
    expect(finding?.evidence.at(-1)).toContain('no more than it cost');
  });

  it('lessen a finding that shares a part, and say so', () => {
    const [dear, less] = countOnce([draft('a', 40, 60), draft('b', 0, 50)]);
    expect(dear?.costMs).toBe(50 * 60_000);
    expect(less).toMatchObject({ costMs: 10 * 60_000, winMs: 10 * 60_000 });
    expect(less?.evidence.at(-1)).toBe(
      '10 min of it are counted under “Finding b” and left out here; followed alone, this advice gains 20 min',
    );
  });

  it('stay with what claims first, though another is dearer', () => {
    const all = countOnce([draft('a', 40, 60, { claimsFirst: true }), draft('b', 0, 50)]);
    expect(all.map(({ id, costMs }) => [id, costMs / 60_000])).toEqual([
      ['b', 40],
      ['a', 20],
    ]);
    expect(all.some((f) => 'claimsFirst' in f)).toBe(false);
  });

  it('share what one rule of the replay wins, and say so', () => {
    const rule = { id: 'dither-every-4', gainMs: 20 * 60_000 };
    const all = countOnce([draft('a', 0, 20, { rule }), draft('b', 30, 50, { rule }), draft('c', 60, 70)]);
    const claimed = all.filter(({ id }) => id !== 'c');
    expect(sum(claimed.map(({ winMs = NaN }) => winMs))).toBeLessThanOrEqual(rule.gainMs);
    for (const { evidence } of claimed)
      expect(evidence.at(-1)).toBe('of the 20 min that the replay gains, 10 min are counted here');
    expect(all.find(({ id }) => id === 'c')?.winMs).toBe(10 * 60_000);
  });

  it('put first what comes before all minutes', () => {
    expect(countOnce([draft('a', 0, 50), draft('b', 60, 61, { isFirst: true })]).map(({ id }) => id)).toEqual([
      'b',
      'a',
    ]);
  });

  it('do not take one train’s minutes for another’s', () => {
    const other = draft('a', 0, 10, { minutes: [{ train: 'wren', span: interval(0, 600_000) }] });
    expect(countOnce([other, draft('b', 0, 50)])).toHaveLength(2);
  });

  it('let a finding without minutes stand as it is', () => {
    const free = { ...draft('a', 0, 0), costMs: 0, minutes: [] };
    expect(countOnce([free, draft('b', 0, 50)]).map((f) => f.id)).toEqual(['b', 'a']);
  });

  it('never add up to more than the minutes that were claimed', () => {
    const any = fc.array(fc.tuple(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 1, max: 60 })), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(any, (spans) => {
        const drafts = spans.map(([from, length], i) => draft(`f${i}`, from, from + length));
        const all = coveredMs(drafts.flatMap((d) => d.minutes?.map((m) => m.span) ?? []));
        // Rounding is to the millisecond; what is shared by less than half a minute counts as chance.
        expect(sum(countOnce(drafts).map((f) => f.costMs))).toBeLessThanOrEqual(all + drafts.length * 30_001);
      }),
    );
  });
});
