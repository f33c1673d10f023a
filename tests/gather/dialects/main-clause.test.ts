import { describe, expect, it } from 'vitest';
import { withoutBullets } from '../../../src/gather/dialects/draft/kinds/bullets.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { kindsOf } from './support/kinds.js';

const best = (wording: string): string | undefined => [...wordEvidence(wording)].sort((a, b) => b[1] - a[1])[0]?.[0];

describe('the words of a line', () => {
  it.each([
    ['guiding off: cloud', 'guiding-end'],
    ['Belichtung abgebrochen, Wolken', 'exposure-abort'],
    ['追尾補正 休み(ピント合わせ)', 'guiding-rest-begin'],
    ['prowadzenie: przerwa na ostrzenie', 'guiding-rest-begin'],
    ['pausa inseguimento per il fuoco', 'guiding-rest-begin'],
  ])('tell what happens, not why: %s', (wording, event) => {
    expect(best(wording)).toBe(event);
  });

  it.each(['no cloud worth naming', 'rueda: sin cambios', 'Filterrad: kein Wechsel', '次の露光まで 53秒'])(
    'tell nothing of what does not happen: %s',
    (wording) => {
      expect(wordEvidence(wording).size).toBe(0);
    },
  );

  it.each([
    'guide star calmed after the dither',
    'estrella calmada después del dither',
    'hvězda po ditheringu uklidněna',
  ])('tell what a dither was followed by, not the dither: %s', (wording) => {
    expect([...wordEvidence(wording).keys()].filter((event) => event.startsWith('dither'))).toEqual([]);
    expect(best(wording)).toBe('settling-end');
  });

  it('say that a hold is over where it is lifted', () => {
    expect(best('Halt aufgehoben')).toBe('hold-end');
    expect(best('hold lifted')).toBe('hold-end');
  });

  it('are read with umlauts written out', () => {
    expect(best('kuehlung')).toBe('cooler');
  });

  it('begin after a mark that stands in front of all lines', () => {
    const plain = withoutBullets(
      kindsOf([
        [0, '■ open'],
        [1, '■ shut'],
        [2, '■ dome dome dome'],
      ]),
    );
    expect(plain.map(({ wording }) => wording).sort()).toEqual(['dome dome dome', 'open', 'shut']);
  });

  it('keep marks that come in turn', () => {
    const kinds = withoutBullets(
      kindsOf([
        [0, '+ zof'],
        [1, '- zof'],
        [2, '+ rin'],
        [3, '- rin'],
      ]),
    );
    expect(kinds.every(({ wording }) => /^[+-]/.test(wording))).toBe(true);
  });
});
