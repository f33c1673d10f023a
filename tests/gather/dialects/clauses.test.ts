import { describe, expect, it } from 'vitest';
import { impliedBy, tellsBoth } from '../../../src/gather/dialects/draft/two-at-once.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { kindsOf } from './support/kinds.js';

function likeliest(wording: string): string | undefined {
  return [...wordEvidence(wording)].sort((a, b) => b[1] - a[1])[0]?.[0];
}

describe('what goes on', () => {
  it.each([
    ['Italian', 'guida in assestamento'],
    ['French', 'guidage en stabilisation'],
    ['Spanish', 'guiado en estabilización'],
    ['Portuguese', 'guiagem em estabilização'],
  ])('is said by a noun in %s', (_, wording) => expect(likeliest(wording)).toBe('settling-begin'));

  it('is combined with what it follows, and split as written', () => {
    const kindOf = (text: string) => kindsOf([[0, text]])[0];
    for (const text of ['dither terminado, guiagem a estabilizar', 'dithering terminato, guida in assestamento']) {
      const kind = kindOf(text);
      if (kind === undefined) throw new Error('no kind');
      expect(tellsBoth(kind, 'dither-end', 'settling-begin'), text).toBe(true);
      expect(impliedBy(kind, 'dither-end', []), text).toBe('settling-begin');
    }
  });
});

describe('a line of two clauses', () => {
  it('names the settling that begins where other lines say that it is over, and none that it begins', () => {
    const [kind, calm] = kindsOf([
      [10, 'Versatz beendet, Einschwingen'],
      [22, 'eingeschwungen'],
    ]);
    if (kind === undefined || calm === undefined) throw new Error('no kinds');
    expect(impliedBy(kind, 'dither-end', [[calm, 'settling-end']])).toBe('settling-begin');
    expect(impliedBy(kind, 'dither-end', [])).toBeNull();
    expect(impliedBy(kind, 'dither-end', [[calm, 'settling-begin']])).toBeNull();
  });

  it.each(['quiet, waiting for the dither', 'still, awaiting the dither', 'ruhig, wartet auf den Versatz'])(
    'is about the train that stands still and waits: %s',
    (wording) => expect(likeliest(wording)).toBe('dither-ready'),
  );

  it.each(['guiding calm, waiting for the dither', 'settled, waiting for the next frame'])(
    'is about the guiding where this is calm, or nothing waits for a dither: %s',
    (wording) => expect(likeliest(wording)).toBe('settling-end'),
  );
});
