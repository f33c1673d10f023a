import { describe, expect, it } from 'vitest';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';

function likeliest(wording: string): string | undefined {
  return [...wordEvidence(wording)].sort((a, b) => b[1] - a[1])[0]?.[0];
}

describe('a line of two clauses', () => {
  it.each(['quiet, waiting for the dither', 'still, awaiting the dither', 'ruhig, wartet auf den Versatz'])(
    'is about the train that stands still and waits: %s',
    (wording) => expect(likeliest(wording)).toBe('dither-ready'),
  );

  it.each(['guiding calm, waiting for the dither', 'settled, waiting for the next frame'])(
    'is about the guiding where this is calm, or nothing waits for a dither: %s',
    (wording) => expect(likeliest(wording)).toBe('settling-end'),
  );
});
