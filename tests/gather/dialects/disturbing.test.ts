import { describe, expect, it } from 'vitest';
import { classify } from '../../../src/gather/dialects/draft/classify/classify.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

describe('a line that tells between whiles what others tell', () => {
  const kinds = kindsOf(
    rounds(20, 320, (from, i) => [
      [from, `shutter opens for 300 s, frame ${i}`],
      [from + 60, `camera state exposing, ${240 + (i % 7)}`],
      [from + 130, `camera state exposing, ${170 + (i % 7)}`],
      [from + 210, `camera state exposing, ${90 + (i % 7)}`],
      [from + 300, 'shutter closes'],
      [from + 304, `nudging by 2.${i} px`],
      [from + 306, 'nudge done'],
      [from + 307, 'waiting for calm'],
      [from + 317, 'calm'],
    ]),
  );
  const { verdicts } = classify(kinds.map((kind) => ({ kind })));
  const eventOf = (beginning: string) => verdicts.get(kindLike(kinds, beginning))?.event;

  it('is left to choose, and spoils none of the others', () => {
    expect(eventOf('camera state')).toBeNull();
    const offered = verdicts
      .get(kindLike(kinds, 'camera state'))
      ?.offers([])
      .map(([event]) => event);
    expect(offered?.slice(0, 7)).toContain('exposure-begin');
    expect(eventOf('shutter opens')).toBe('exposure-begin');
    expect(eventOf('shutter closes')).toBe('exposure-end');
    expect(eventOf('nudging')).toBe('dither-begin');
    expect(eventOf('calm')).toBe('settling-end');
  });
});
