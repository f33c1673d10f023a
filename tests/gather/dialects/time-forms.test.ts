import { describe, expect, it } from 'vitest';
import { Remembered } from '../../../src/gather/dialects/draft/time/remembered.js';
import { Forms, matched, Part, shape } from '../../../src/gather/dialects/draft/time/shape.js';

const [digits, colon, year] = [new Part(String.raw`\d{2}`), new Part(':'), new Part('20')];
const FORMS = [
  shape('first', () => null, [digits, colon]),
  shape('second', () => null),
  shape('third', () => null, [colon]),
  shape('fourth', () => null, [digits, year]),
  shape('fifth', () => null, [digits, colon, year]),
];

describe('the forms that a text may have', () => {
  // In turn and again, so that what was found for one text is also asked for after another.
  const texts = ['', '12', ':', '12:4', '2026', '20:26', '1:2', '12', '20:26', ''];

  it.each(texts.map((text, i) => [i, text] as const))('are all whose parts it holds, in order: %s, "%s"', (_, text) => {
    const forms = new Forms(FORMS);
    for (const before of texts) forms.mayBeIn(before);
    expect(forms.mayBeIn(text)).toEqual(FORMS.filter(({ parts }) => parts.every((part) => part.isIn(text))));
  });
});

describe('what is remembered of a text', () => {
  it('is found once, also where nothing is found', () => {
    const asked: string[] = [];
    const found = new Remembered((text) => {
      asked.push(text);
      return text === '' ? null : text.length;
    });
    expect(['a', '', 'a', '', 'ab'].map((text) => found.of(text))).toEqual([1, null, 1, null, 2]);
    expect(asked).toEqual(['a', '', 'ab']);
  });

  it('is forgotten at some point, and found again', () => {
    const found = new Remembered((text) => ({ text }));
    const first = found.of('0');
    for (let i = 1; i < 40_000; i++) found.of(String(i));
    expect(found.of('0')).toEqual(first);
    expect(found.of('0')).not.toBe(first);
  });
});

describe('the first position that a form has in a text', () => {
  it('is found behind letters of two code units, which are passed over whole', () => {
    const builds: string[] = [];
    const word = {
      regExp: /\p{L}+/gu,
      build: (_: unknown, found: string) => (builds.push(found) > 2 ? 'third' : null),
      parts: [],
    };
    // Two characters of Unicode's plane 2, and one of the basic plane.
    expect(matched(word, '\u{20b9f}\u{20b9f}a')).toEqual({ start: 4, end: 5, pattern: 'third' });
    expect(builds).toEqual(['\u{20b9f}\u{20b9f}a', '\u{20b9f}a', 'a']);
  });
});
