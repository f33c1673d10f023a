import { describe, expect, it } from 'vitest';
import { stateWord, takesTurns, wordedStates } from '../../../src/gather/dialects/draft/kinds/binary-states.js';

describe('states in digits', () => {
  it.each([
    ['1', 'on'],
    ['0', 'off'],
    ['0->1', 'on'],
    ['1 → 0', 'off'],
    ['TRUE', 'on'],
    ['2', null],
    ['idle', null],
  ])('%s is %s', (text, word) => {
    expect(stateWord(text)).toBe(word);
  });

  it('take turns', () => {
    expect(takesTurns(['0->1', '1->0', '0->1', '1->0'])).toBe(true);
    expect(takesTurns(['1', '1', '1', '1', '0', '0', '0', '0'])).toBe(false);
    expect(takesTurns(['1', '1', '1', '0'])).toBe(false);
    expect(takesTurns(['1', '0', '3', '0'])).toBe(false);
  });

  it('are words in a wording', () => {
    expect(wordedStates('shutter 0 -> 1, # s')).toBe('shutter on, # s');
    expect(wordedStates('shutter: 0')).toBe('shutter: off');
    expect(wordedStates('retry 12 of 30')).toBe('retry 12 of 30');
  });
});
