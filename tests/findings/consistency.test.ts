/** What a finding says in several places must agree, and two of them must not say the same thing in other words. */
import { describe, expect, it } from 'vitest';
import { duration, type Finding } from '../../src/model/index.js';
import { NIGHT_NAMES } from '../support/nights.js';
import { replayedNight } from '../support/replayed-night.js';

const textsOf = ({ title, evidence, advice, price = '' }: Finding): string[] => [title, advice, price, ...evidence];
const firstSentence = (advice: string): string => /^.+?[.!](?=\s+[A-Z“]|$)/s.exec(advice)?.[0] ?? advice;

/** Words that two sentences share, of all that they have. */
function likeness(a: string, b: string): number {
  const [one, other] = [a, b].map((text) => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu)));
  if (!one || !other) return 0;
  const common = [...one].filter((word) => other.has(word)).length;
  return common / (one.size + other.size - common);
}

describe.each(NIGHT_NAMES)('the findings of %s', (name) => {
  const { ranked } = replayedNight(name).findings;

  it('state no share of nothing as a measure', () => {
    for (const text of ranked.flatMap(textsOf)) {
      expect(text).not.toMatch(/(?<![\d.])0 % (?:of each|on )/);
      expect(text).not.toMatch(/(?<![\d.] ?)\b0 s of the\b/);
      expect(text).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('name one figure for what the replay keeps more and what is recoverable', () => {
    for (const finding of ranked) {
      // What is shared with another finding says so.
      if (finding.evidence.some((line) => line.includes('are counted under'))) continue;
      for (const line of finding.evidence) {
        const [, more] = /replayed so, the night keeps (.+?) more on all trains/.exec(line) ?? [];
        if (more !== undefined) expect(more, finding.title).toBe(duration(finding.winMs ?? NaN));
      }
    }
  });

  it('advise alike only in the same words, which are then said once', () => {
    const actions = [...new Set(ranked.filter((f) => (f.winMs ?? 0) >= 180_000).map((f) => firstSentence(f.advice)))];
    actions.forEach((one, i) => {
      for (const other of actions.slice(i + 1)) {
        // The same for another train or filter is another thing to do.
        if (one.length < 60 || other.length < 60) continue;
        expect(likeness(one, other), `${one} / ${other}`).toBeLessThan(0.8);
      }
    });
  });
});
