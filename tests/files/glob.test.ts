import fc from 'fast-check';
import { matchesGlob } from 'node:path';
import { describe, expect, it } from 'vitest';
import { pathMatcher } from '../../src/files/glob.js';

const matches = (glob: string, path: string): boolean => pathMatcher([glob])(path);

describe('globs', () => {
  it.each([
    ['frames/heron/**/*.fits', 'frames/heron/a.fits', true],
    ['frames/heron/**/*.fits', 'frames/heron/L/2026/a.fits', true],
    ['frames/heron/**/*.fits', 'frames/wren/a.fits', false],
    ['**/*', 'a.fits', true],
    ['**/*', 'a/b/c', true],
    ['*', 'a/b', false],
    ['a/**', 'a/b/c', true],
    ['a/**/b/**/c', 'a/x/b/y/z/c', true],
    ['a/**/b/**/c', 'a/x/y/z/c', false],
    ['*.{fits,FIT}', 'x.fit', true],
    ['{a,b/{c,d}}/*.log', 'b/d/x.log', true],
    ['heron_[0-9][0-9].fits', 'heron_07.fits', true],
    ['heron_[!0-9].fits', 'heron_7.fits', false],
    ['heron?.jsonl', 'heron1.jsonl', true],
    ['HERON*.JSONL', 'heron-Ü.jsonl', true],
    ['./logs/*.csv', 'logs/guiding.csv', true],
    ['frames\\heron\\**\\*.fits', 'frames/heron/L/a.fits', true],
    ['**/*', '.hidden/a', false],
    ['a[*]b', 'a*b', true],
    ['a[b', 'a[b', true],
    ['frames/heron', 'frames/heron/L/a.fits', true],
    ['frames\\heron\\', 'frames/heron/a.fits', true],
    ['frames/heron', 'frames/heron2/a.fits', false],
    ['frames/*', 'frames/heron/a.fits', false],
    ['🔭*', '🔭1', true],
  ])('%s and %s: %s', (glob, path, expected) => {
    expect(matches(glob, path)).toBe(expected);
  });

  // Checked against Node's own `path.matchesGlob`, where this Node has one; a second implementation, not ours.
  it.skipIf(typeof matchesGlob !== 'function')('agree with another implementation', () => {
    const name = fc.stringMatching(/^[ab]{1,4}$/);
    const part = fc.oneof(
      fc.constant('**'),
      fc.stringMatching(/^[ab*?]{1,4}$/).filter((p) => !p.includes('**')),
    );
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 4 }),
        fc.array(name, { minLength: 1, maxLength: 5 }),
        (p, n) => {
          // Programs differ in whether `a/**` includes `a` itself; here it does.
          if (p.at(-1) === '**') return;
          // A folder's plain name stands for what is in it only here.
          if (!/[*?]/.test(p.at(-1) ?? '')) return;
          expect(matches(p.join('/'), n.join('/'))).toBe(matchesGlob(n.join('/'), p.join('/')));
        },
      ),
    );
  });

  it('match many stars and braces on a long name at once', () => {
    const name = `${'a'.repeat(250)}b`;
    expect(matches(`${'*a'.repeat(100)}*c`, name)).toBe(false);
    expect(matches(`${'**/a/'.repeat(50)}c`, Array.from({ length: 30 }, () => 'a').join('/'))).toBe(false);
    expect(matches('{a,b}'.repeat(40), 'ab')).toBe(false);
  });
});
