import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFormula, durationSeconds, FormulaError, numberOf } from '../../../src/gather/dialects/formula.js';
import { compileTemplate, TemplateError } from '../../../src/gather/dialects/template.js';
import { runs } from '../../support/runs.js';

const values = new Map<string, string | number>([
  ['scale', 1.5],
  ['dx', '-0.4'],
  ['took', '1:02:03.5'],
  ['RA error', '2'],
  ['word', 'open'],
]);
const lookup = (name: string): string | number | undefined => values.get(name);

describe('formulas', () => {
  it.each([
    ['1 + 2 * 3', 7],
    ['(1 + 2) * 3', 9],
    ['8 / 4 / 2', 1],
    ['8 - 4 - 2', 2],
    ['-dx * scale', 0.6],
    ['--1', 1],
    ['{RA error} * 2', 4],
    ['max(dx, 0) + min(1, 2)', 1],
    ['sqrt(16) + abs(-3) + round(1.6)', 9],
    ['duration(took)', 3723.5],
    ['.5 + 1.', 1.5],
  ])('%s is %d', (source, expected) => {
    expect(compileFormula(source, false).evaluate(lookup)).toBeCloseTo(expected, 12);
  });

  it('are no number when a value is missing or is no number', () => {
    expect(compileFormula('missing * 2', false).evaluate(lookup)).toBeNaN();
    expect(compileFormula('word * 2', false).evaluate(lookup)).toBeNaN();
  });

  it('agree with the platform on random arithmetic', () => {
    const tree = fc.letrec<{ node: string }>((tie) => ({
      node: fc.oneof(
        { maxDepth: 5 },
        fc.integer({ min: 0, max: 99 }).map(String),
        fc
          .tuple(tie('node'), fc.constantFrom('+', '-', '*', '/'), tie('node'))
          .map(([a, sign, b]) => `(${a} ${sign} ${b})`),
        fc
          .tuple(tie('node'), fc.constantFrom('+', '-', '*', '/'), fc.integer({ min: 1, max: 9 }))
          .map(([a, sign, b]) => `${a}${sign}${b}`),
      ),
    })).node;
    fc.assert(
      fc.property(tree, (source) => {
        fc.pre(source.length <= 500);
        // The generated text holds digits, signs and parentheses alone.
        const expected = Number(new Function(`return ${source}`)());
        expect(compileFormula(source, false).evaluate(lookup)).toBe(expected);
      }),
    );
  });

  it('tell the names they use', () => {
    expect([...compileFormula('dx * {RA error} + duration(took)', false).names]).toEqual(['dx', 'RA error', 'took']);
  });

  it.each([
    '',
    '1 +',
    '(1',
    '1 2',
    'f(1)',
    'max(1)',
    '1; 2',
    'a.b',
    '$x',
    'constructor(1)',
    `${'('.repeat(100)}1${')'.repeat(100)}`,
    `${'1+'.repeat(400)}1`,
  ])('%j is refused', (source) => {
    expect(() => compileFormula(source, false)).toThrow(FormulaError);
  });

  it('throw nothing but their own error, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string({ unit: fc.constantFrom('a', '1', '(', ')', '+', '*', '{', '}', ',', ' ', 'max', 'duration') }),
        ),
        (source) => {
          try {
            expect(typeof compileFormula(source, true).evaluate(lookup)).toBe('number');
          } catch (error) {
            expect(error).toBeInstanceOf(FormulaError);
          }
        },
      ),
      runs(500),
    );
  });
});

describe('numbers and durations in a log', () => {
  it.each([
    ['1.5', false, 1.5],
    ['-1.5e2', false, -150],
    ['+.5', false, 0.5],
    ['\u22123', false, -3],
    [' 7 ', false, 7],
    ['1,5', false, NaN],
    ['1,5', true, 1.5],
    ['1.234,5', true, 1234.5],
    ['', false, NaN],
    ['0x10', false, NaN],
    ['NaN', false, NaN],
  ])('%j with decimal comma %s is %d', (text, comma, expected) => {
    expect(numberOf(text, comma)).toBe(expected);
  });

  it.each([
    ['12.5', 12.5],
    ['2:03', 123],
    ['1:02:03', 3723],
    ['2m 3s', 123],
    ['1 h 2 min', 3720],
    ['350 ms', 0.35],
    ['5 minutes 2.5 seconds', 302.5],
    // ISO 8601.
    ['PT1H2M3.5S', 3723.5],
    ['PT360S', 360],
    ['soon', NaN],
    ['', NaN],
  ])('%j lasts %d s', (text, seconds) => {
    expect(durationSeconds(text, false)).toBe(seconds);
  });
});

describe('templates', () => {
  it.each([
    ['{word} at {dx}', 'open at -0.4'],
    ['plain', 'plain'],
    ['{{x}}', '{x}'],
    ['{missing}', null],
    ['{missing}-{word}', '-open'],
  ])('%j fills to %j', (source, expected) => {
    expect(compileTemplate(source).fill(lookup)).toBe(expected);
  });

  it('refuse a brace that stands alone', () => {
    expect(() => compileTemplate('a { b')).toThrow(TemplateError);
  });
});
