import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';

/**
 * Sentences as programmers word them, under the event that they tell, in twelve languages; under `none` what tells
 * nothing. From knowledge of the languages, no source; written before the lexicon was mended by them.
 */
const SENTENCES = readFileSync(join(import.meta.dirname, 'sentences.txt'), 'utf8');
/** What words must say to be heard. */
const HEARD = 1.5;

interface Heard {
  readonly sentence: string;
  readonly event: string;
  readonly likeliest: string;
}

function heard(): Heard[] {
  let event = '';
  return SENTENCES.split('\n').flatMap((line): Heard[] => {
    if (line.startsWith('# ')) event = line.slice(2).trim();
    if (line.startsWith('# ') || line.trim() === '') return [];
    const sentence = line.slice(line.indexOf('|') + 1);
    const [best] = [...wordEvidence(sentence)].sort((a, b) => b[1] - a[1]);
    return [{ sentence: line, event, likeliest: best === undefined || best[1] < HEARD ? 'none' : best[0] }];
  });
}

describe('sentences in the words of many', () => {
  const all = heard();

  it('are heard as what they tell, 95 of 100', () => {
    const right = all.filter(({ event, likeliest }) => event === likeliest);
    expect(right.length / all.length).toBeGreaterThanOrEqual(0.95);
  });

  it('are heard wrong 2 times of 100 at most', () => {
    const wrong = all.filter(({ event, likeliest }) => likeliest !== 'none' && likeliest !== event);
    expect(wrong.length / all.length, wrong.map(({ sentence }) => sentence).join('\n')).toBeLessThanOrEqual(0.02);
  });
});
