import fc from 'fast-check';
import { RE2JS } from 're2js';
import { describe, expect, it } from 'vitest';
import { emptyHits, LiteralScan } from '../../../src/gather/dialects/pattern/literal-scan.js';
import { foldAscii, requiredLiterals } from '../../../src/gather/dialects/pattern/literals.js';
import { nativePattern } from '../../../src/gather/dialects/pattern/native.js';
import { compilePattern, MatchBudget, PatternError } from '../../../src/gather/dialects/pattern/pattern.js';
import { parsePattern } from '../../../src/gather/dialects/pattern/syntax.js';
import { runs } from '../../support/runs.js';

/** Random patterns over a small alphabet, so that random texts match them often. */
const patterns = fc.letrec<{ node: string }>((tie) => ({
  node: fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    fc.constantFrom(
      'a',
      'b',
      'c',
      'S',
      ' ',
      'é',
      '1',
      '.',
      '\\d',
      '\\w',
      '\\s',
      '\\S',
      '[ab]',
      '[^a]',
      '[^ ]',
      '\\b',
      '\\.',
      '[a-c1-3]',
      'abc',
      '\\x61',
      '\\x{1F600}',
    ),
    fc.tuple(tie('node'), tie('node')).map(([a, b]) => a + b),
    fc.tuple(tie('node'), tie('node')).map(([a, b]) => `(?:${a}|${b})`),
    fc
      .tuple(tie('node'), fc.constantFrom('*', '+', '?', '*?', '+?', '??', '{2}', '{1,3}', '{2,}'))
      .map(([a, q]) => `(?:${a})${q}`),
    fc
      .tuple(fc.constantFrom('.', '\\d', '\\w', '[^a]', 'a', '[ab]'), fc.constantFrom('*', '+', '?', '{1,2}'))
      .map(([a, q]) => a + q),
    tie('node').map((a) => `(${a})`),
    tie('node').map((a) => `(?<name>${a})`),
    tie('node').map((a) => `(?i:${a})`),
  ),
})).node;
const anchoredPatterns = fc
  .tuple(fc.constantFrom('', '', '^'), patterns, fc.constantFrom('', '', '$'))
  .map((parts) => parts.join(''));
const texts = fc.string({
  unit: fc.constantFrom('a', 'b', 'c', 'A', 'B', 's', 'S', 'k', '1', '2', ' ', '.', 'é', '😀', '\u212a', '\u017f'),
  maxLength: 20,
});

function linear(source: string): RE2JS | null {
  try {
    return RE2JS.compile(source);
  } catch {
    return null;
  }
}

function capturesOf(engine: RE2JS, text: string): (string | undefined)[] | null {
  const matcher = engine.matcher(text);
  if (!matcher.find()) return null;
  return Array.from({ length: engine.groupCount() + 1 }, (_, group) => matcher.group(group) ?? undefined);
}

describe('patterns', () => {
  it('match the same on the native engine as on the linear-time engine', () => {
    let native = 0;
    fc.assert(
      fc.property(anchoredPatterns, fc.array(texts, { minLength: 1, maxLength: 8 }), (source, samples) => {
        const engine = linear(source);
        fc.pre(engine !== null && !engine.test(''));
        const pattern = compilePattern(source, false);
        if (pattern.native) native++;
        for (const text of samples) {
          const found = pattern.exec(text);
          expect(found === null ? null : Array.from(found)).toEqual(engine === null ? null : capturesOf(engine, text));
        }
      }),
      runs(3000),
    );
    expect(native).toBeGreaterThan(50);
  });

  it('never match a text that holds none of the required literals', () => {
    let required = 0;
    fc.assert(
      fc.property(
        anchoredPatterns,
        fc.boolean(),
        fc.array(texts, { minLength: 1, maxLength: 8 }),
        (source, ignoreCase, samples) => {
          const engine = linear(ignoreCase ? `(?i)${source}` : source);
          const tree = parsePattern(source, ignoreCase);
          fc.pre(engine !== null && tree !== null);
          const literals = tree === null ? null : requiredLiterals(tree);
          if (literals === null) return;
          required++;
          for (const text of samples) {
            if (engine?.test(text)) expect(literals.some((literal) => foldAscii(text).includes(literal))).toBe(true);
          }
        },
      ),
      runs(3000),
    );
    expect(required).toBeGreaterThan(10);
  });

  it.each([
    ['shutter closed after (?<took>[\\d.]+) s', ['shutter closed after ']],
    ['(?:opens|closes) the roof', ['opens the roof', 'closes the roof']],
    ['colou?r wheel', ['color wheel', 'colour wheel']],
    ['\\d+ px', [' px']],
    ['(?i)Dither', ['dither']],
    ['\\d+', null],
    ['a|\\d', null],
    ['x', null],
  ])('%s requires %j', (source, expected) => {
    const literals = compilePattern(source, false).literals;
    expect(literals === null ? null : [...literals].sort()).toEqual(expected === null ? null : [...expected].sort());
  });

  // Condition 1: closed repeats. Condition 2: few ways. Condition 3: attempts apart, or guarded.
  it.each([
    ['Exposure (?<n>\\d+) began', true, []],
    ['^(?<n>\\d+) px$', true, []],
    ['saved (?<file>\\S+) in \\d+ ms', true, []],
    ['saved (?<file>.+)', true, []],
    ['saved .* in \\d+ ms', true, [' in ', 'saved ']],
    ['(?:on|off|open)', true, []],
    ['(a+)+b', false, []],
    ['(?:a|a)+b', false, []],
    ['x.*\\d', false, []],
    ['\\w+ began', true, []],
    ['(?<who>[a-z]+) is ready for \\d+ s', true, []],
    ['.+ in place', true, [' in place']],
    ['\\w+ \\w+ began', false, []],
    ['(?:\\w+ )began', true, []],
    ['\\w* began', false, []],
    ['\\d+\\d+x', false, []],
    ['(?:(?:a|ab)(?:c|bcd)(?:d*))*$', false, []],
    [`${'(?:a|ab)'.repeat(20)}c`, false, []],
  ])('%s goes to the native engine: %s', (source, expected, guards) => {
    const tree = parsePattern(source, false);
    const native = tree === null ? null : nativePattern(tree);
    expect(native !== null).toBe(expected);
    expect(native?.guards ?? []).toEqual(guards);
  });

  it('that begin with a repeat find the leftmost match, and take no longer for a run that is tried in vain', () => {
    const pattern = compilePattern('(?<who>[a-z]+) is ready', false);
    expect(Array.from(pattern.exec('wren and heron is ready') ?? [])).toEqual(['heron is ready', 'heron']);
    expect(pattern.exec('Heron is ready')?.[1]).toBe('eron');
    // Tried from each of its letters, such a text would take thousands of millions of steps.
    expect(pattern.exec('a'.repeat(100_000))).toBeNull();
  });

  it('leave a text with too many places to stop to the linear-time engine, with the same result', () => {
    const pattern = compilePattern('saved (?<file>.*) in (?<ms>\\d+) ms', false);
    const text = `${'saved '.repeat(3000)}x in ${' in '.repeat(3000)}7 ms`;
    expect(pattern.native).toBe(true);
    expect(pattern.exec(text)?.[2]).toBe('7');
    expect(pattern.exec('saved '.repeat(10_000))).toBeNull();
  });

  it.each([
    ['(', /missing/],
    ['(?=a)b', /invalid/],
    ['(a)\\1', /invalid/],
    ['a{2000}', /repeat/],
    ['(?:(?:a{100}){100}){100}', /repeat|large/],
    ['\\d*', /empty text/],
    ['x'.repeat(3000), /longer than/],
    [`${'('.repeat(1500)}a${')'.repeat(400)}`, /./],
  ])('that cannot be used say why: %#', (source, message) => {
    expect(() => compilePattern(source, false)).toThrow(PatternError);
    expect(() => compilePattern(source, false)).toThrow(message);
  });

  it('end in time on patterns and texts made to hang a backtracking engine', () => {
    const long = `${'a'.repeat(20_000)}!`;
    for (const source of ['(a+)+$', '(a|aa)+$', '(?:a|a?)+b', '(.*a){12}b', '(?:a?){40}a{40}b']) {
      expect(compilePattern(source, false).exec(long)).toBeNull();
    }
  });

  it('match nothing more when the time that they share is spent', () => {
    const budget = new MatchBudget(0.000_001);
    const slow = compilePattern('(a+)+b', false, budget);
    const quick = compilePattern('opens the (?<what>\\w+)', false, budget);
    slow.exec('a'.repeat(5000));
    expect(budget.isSpent).toBe(true);
    expect(slow.exec('aab')).toBeNull();
    expect(quick.exec('opens the roof')?.[1]).toBe('roof');
  });

  it('ignore case where the dialect says so', () => {
    expect(compilePattern('Shutter OPEN', true).exec('the shutter open')).not.toBeNull();
    expect(compilePattern('focus', true).exec('focu\u017f')).not.toBeNull();
    expect(compilePattern('öffnet', true).exec('ÖFFNET')).not.toBeNull();
  });
});

describe('the search for literals', () => {
  it('finds what a plain search for each finds', () => {
    const literal = fc
      .string({ unit: fc.constantFrom('a', 'b', 'k', ' ', 'é', '.'), minLength: 1, maxLength: 6 })
      .filter((text) => Buffer.byteLength(text) >= 2);
    const text = fc.string({ unit: fc.constantFrom('a', 'A', 'b', 'B', 'k', 'K', ' ', 'é', '.', '\n'), maxLength: 80 });
    fc.assert(
      fc.property(fc.uniqueArray(literal, { minLength: 1, maxLength: 6 }), text, (literals, haystack) => {
        const hits = emptyHits();
        const bytes = Buffer.from(haystack);
        new LiteralScan(literals).scan(bytes, hits);
        const found = Array.from(
          { length: hits.count },
          (_, i) => `${hits.positions[i] ?? 0}:${literals[hits.ids[i] ?? 0] ?? ''}`,
        ).sort();
        const folded = Buffer.from(foldAscii(haystack));
        const expected = literals.flatMap((one) => {
          const places: string[] = [];
          for (let at = folded.indexOf(one); at !== -1; at = folded.indexOf(one, at + 1)) places.push(`${at}:${one}`);
          return places;
        });
        expect(found).toEqual(expected.sort());
        expect(hits.positions.subarray(0, hits.count)).toEqual(hits.positions.slice(0, hits.count).sort());
      }),
      runs(500),
    );
  });
});
