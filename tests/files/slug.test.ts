import { describe, expect, it } from 'vitest';
import { slug } from '../../src/files/slug.js';

describe('a short word from free text', () => {
  it.each([
    ['Heron 80 mm', 'heron-80-mm'],
    ['  Jardín del Mochuelo ', 'jardin-del-mochuelo'],
    ['鷺 80', '鷺-80'],
    ['/../', ''],
    ['ﬁve', 'five'],
  ])('%s → %s', (text, expected) => {
    expect(slug(text, 24)).toBe(expected);
  });

  it('is no longer than asked', () => {
    expect(slug('a'.repeat(50), 40)).toBe('a'.repeat(40));
  });
});
