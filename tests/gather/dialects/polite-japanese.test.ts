import { describe, expect, it } from 'vitest';
import { motionsIn } from '../../../src/gather/dialects/draft/lexicon/motion-words.js';
import { plainWords } from '../../../src/gather/dialects/draft/lexicon/plain-words.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { tokenize } from '../../../src/gather/dialects/draft/tokens.js';
import { drafted } from './support/drafted.js';

const texts = (message: string): string[] => tokenize(message, false).map(({ text }) => text);

describe('names that Japanese or Chinese words stand right beside', () => {
  it('are recognised from these', () => {
    expect(texts('eastのセンサーは7.9度です')).toEqual(['east', 'のセンサーは', '7.9', '度です']);
    expect(texts('eastの画像をeast_M33_0001.fitsに保存')).toEqual(['east', 'の画像を', 'east_M33_0001.fits', 'に保存']);
    expect(texts('画像を/data/m33/a_001.fitsに保存')).toEqual(['画像を', '/data/m33/a_001.fits', 'に保存']);
  });

  it('may hold such words, set off by strokes', () => {
    expect(texts('保存 east_亮场_001.fits')).toEqual(['保存', 'east_亮场_001.fits']);
    expect(texts('光_001.fits')).toEqual(['光_001.fits']);
  });
});

describe('what has been begun', () => {
  it('is not over for its polite past', () => {
    const has = (text: string): boolean => motionsIn(text, plainWords(text)).has('did');
    expect(has('ピント合わせを始めました。')).toBe(false);
    expect(has('ピントが合いました。')).toBe(true);
    expect(has('準備を始めました。ピントが合いました。')).toBe(true);
  });
});

describe('the stars of a focus', () => {
  it('are none that the guiding lost', () => {
    expect(wordEvidence('ピント合わせが終わりました。星像は#ピクセルです。').has('star-gap-begin')).toBe(false);
    expect(wordEvidence('ガイド星を見失いました。').has('star-gap-begin')).toBe(true);
  });
});

describe('a field that names what goes on now', () => {
  it('tells what follows at once', () => {
    const lines = Array.from({ length: 80 }, (_, i) => {
      const at = new Date(
        Date.UTC(2026, 9, 14, 20) + Math.floor(i / 5) * 340_000 + ([0, 300, 303, 308, 319][i % 5] ?? NaN) * 1000,
      );
      const says = [
        'ev=exposure_start secs=300',
        'ev=exposure_end',
        'ev=dither',
        'ev=dither_done now=settling',
        'ev=settled',
      ];
      return `t=${at.toISOString()} ${says[i % 5] ?? ''} n=${i}`;
    });
    const { rules } = drafted(lines).report;
    const dithered = rules.find(({ events }) => events.some(({ event }) => event === 'dither-end'));
    expect(dithered?.events.map(({ event }) => event)).toEqual(['dither-end', 'settling-begin']);
  });
});
