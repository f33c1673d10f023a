import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beginnings } from '../../../src/gather/dialects/draft/lexicon/beginnings.js';
import { MOTIONS } from '../../../src/gather/dialects/draft/lexicon/motions.js';
import { plainWords } from '../../../src/gather/dialects/draft/lexicon/plain-words.js';
import { NOTHING, SUBJECTS } from '../../../src/gather/dialects/draft/lexicon/subjects.js';
import { type WordList, wordList } from '../../../src/gather/dialects/draft/lexicon/word-list.js';
import { runs, some } from '../../support/runs.js';

/** Where a list and its expression, read by the language's own engine, find something else. */
function differing(list: WordList, texts: readonly string[]): string[] {
  const expression = list.expression('u');
  return texts.filter((text) => {
    const index = expression.exec(text)?.index ?? -1;
    return list.indexIn(text) !== index || list.test(text) !== index >= 0;
  });
}

describe('a list of words finds what its expression finds', () => {
  const sentences = readFileSync(join(import.meta.dirname, 'sentences.txt'), 'utf8')
    .split('\n')
    .map((line) => plainWords(line.slice(line.indexOf('|') + 1)));

  it.each([
    ...Object.entries(MOTIONS),
    ...SUBJECTS.map(({ id, strong }) => [id, strong] as const),
    ...SUBJECTS.map(({ id, weak }) => [`${id}, hinted at`, weak] as const),
    ['nothing', NOTHING] as const,
  ])('of the lexicon: %s', (_, list) => {
    expect(differing(list, some(sentences, 100))).toEqual([]);
  });

  it('of few letters, where words and texts are hardly apart', () => {
    const letters = ['a', 'b', '1', '_', 'é', 'яω', 'яω', 'ω', '星', '𝒜', '한', '%'];
    const piece = fc.oneof(
      { weight: 6, arbitrary: fc.constantFrom(...letters) },
      fc.constantFrom('[ab]', 'a?', '[星a]?', '(?:a|b_)', '(?:a|)', '(?<!b)a', 'a(?!b)', '[a-z]+', '星$', '(?:яя|a)+'),
    );
    const word = fc
      .tuple(fc.constantFrom('', '', '*'), fc.array(piece, { minLength: 1, maxLength: 3 }), fc.constantFrom('', '*'))
      .map(([before, pieces, behind]) => before + pieces.join('') + behind);
    const text = fc.array(fc.constantFrom(...letters.map((letter) => letter.replace('_', ' ')), ' '), { maxLength: 8 });
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 4 }), fc.array(text, { maxLength: 20 }), (words, texts) => {
        expect(
          differing(
            wordList(words.join(' ')),
            texts.map((one) => one.join('')),
          ),
        ).toEqual([]);
      }),
      runs(3000),
    );
  });
});

describe('what an expression begins with', () => {
  it.each([
    ['list[oa]', ['list']],
    ['(?:ha|han)_sido', ['ha_sido', 'han_sido']],
    ['(?:noch |)einmal', ['noch einmal', 'einmal']],
    ['(?<![ab])star', ['star']],
    ['[oa]ut', ['out', 'aut']],
    ['prochaine?_pose', ['prochain']],
    ['a?b', ['ab', 'b']],
    ['[a-z]+ed', null],
    ['a*b', null],
    ['one|other', null],
    ['(?:one)+', null],
    ['.x', null],
    ['x.', ['x']],
    ['x{2}', null],
  ])('%s', (source, wanted) => {
    expect(beginnings(source)).toEqual(wanted);
  });
});
