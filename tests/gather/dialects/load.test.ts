import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { runs } from '../../support/runs.js';

const GOOD = `dialect: 1
name: Tern
time:
  pattern: "{year}-{month}-{day} {hour}:{minute}:{second}"
  zone: Europe/Madrid
constants:
  scale: 1.5
lines:
  - when: 'opens for (?<seconds>[\\d.]+) s'
    event: exposure-begin
  - when: 'closed after (?<took>[\\d.]+)'
    event: exposure-end
    lasted: took
    fields: { seconds: took * scale }
ignore:
  - 'chatter'
`;

/** The dialect with one text put in place of another, and the message it then gets. */
function messages(from: string, to: string): string[] {
  expect(GOOD).toContain(from);
  return loadDialect('dialects/tern.yaml', GOOD.replace(from, to)).warnings.map(
    (warning) => `${warning.source?.line ?? 0}: ${warning.message}`,
  );
}

describe('loading a dialect', () => {
  it('gives a dialect and no warning when all is well', () => {
    const loaded = loadDialect('dialects/tern.yaml', GOOD);
    expect(loaded.warnings).toEqual([]);
    expect(loaded.dialect?.name).toBe('Tern');
    expect(loaded.dialect?.lines.map((line) => line.line)).toEqual([9, 11]);
  });

  it.each([
    ['dialect: 1', 'dialect: 2', /^1: .*dialect: 1 is expected/],
    ['name: Tern', 'nmae: Tern', /^2: .*the key "nmae" is not known here; did you mean "name"\?/],
    ['  zone: Europe/Madrid', '  zome: utc', /^5: .*time\.zome.*did you mean "zone"\?/],
    ['zone: Europe/Madrid', 'zone: Europe/Madird', /^5: .*"Europe\/Madird" is not a time zone; use "site"/],
    ['"{year}-{month}-{day} {hour}:{minute}:{second}"', '{year}', /^4: .*time\.pattern.*put it in quotes/],
    ['{minute}', '{minutes}', /^4: .*\{minutes\} is not known; the placeholders are/],
    ['{year}-{month}-{day} ', '', /^3: .*has no date; say where it comes from/],
    [
      'event: exposure-begin',
      'event: exposure-begins',
      /^10: .*lines#1\.event: "exposure-begins" is not known; did you mean "exposure-begin"\?/,
    ],
    ['event: exposure-end', 'event: star-lost', /"star-lost" is now called "star-gap-begin"/],
    ['event: exposure-begin', 'even: exposure-begin', /lines#1\.even.*did you mean "event"\?/],
    ['(?<seconds>[\\d.]+)', '(?<seconds>[\\d.]+', /^9: .*the pattern cannot be used: .*missing/],
    ['(?<seconds>[\\d.]+)', '(?!x)', /^9: .*the pattern cannot be used/],
    [
      'lasted: took',
      'lasted: tok',
      /^13: .*"tok" is neither captured by "when" nor a column or constant; did you mean "took"\?/,
    ],
    ['lasted: took', 'lasted: took *', /^13: .*the formula cannot be used: it ends/],
    ['event: exposure-end', 'event: exposure-begin', /^13: .*"exposure-begin" ends nothing/],
    ['lasted: took', 'lasts: took', /^13: .*"exposure-end" begins nothing/],
    ['seconds: took', 'second: took', /^14: .*did you mean "seconds"\?/],
    ["- 'chatter'", "- 'x*'", /^16: .*ignore#1.*matches the empty text/],
    ["- 'chatter'", '- { Column: x }', /^16: .*patterns for columns need "csv"/],
    ['scale: 1.5', 'scale: { when: "scale (.+)" }', /^7: .*it must capture the value in a group/],
    ['scale: 1.5', 'scale: [1.5]', /^7: .*constants\.scale: .*is expected/],
    ['name: Tern', 'csv: { delimiter: ";", time: At }', /^2: .*csv: name the columns once/],
    [
      'name: Tern',
      'csv: { delimiter: ";", time: At, columns: [Time, What] }',
      /^2: .*csv\.time: there is no column "At"/,
    ],
    ['name: Tern', 'encoding: utf-7', /^2: .*"utf-7" is not an encoding/],
    ['name: Tern', 'guiding: { ra: 1, dec: 2 }', /^2: .*guiding: "when" is missing/],
    ['name: Tern', 'train: { file: "(.+)" }', /^2: .*it must capture the train/],
    ['name: Tern', 'name: &a [*a, *a]', /^2: /],
    ['name: Tern', 'name: Tern\nname: Gull', /^3: .*not valid YAML: Map keys must be unique/],
    ['name: Tern', 'name: "Tern', /not valid YAML/],
    ['dialect: 1', 'site: { name: Cierzo Hill }', /1: .*it looks like a rig file; name a dialect/],
  ])('names the line and the fix: %j → %j', (from, to, message) => {
    const found = messages(from, to);
    expect(found.length).toBeGreaterThan(0);
    expect(found.join('\n')).toMatch(message);
  });

  it('tells several faults at once', () => {
    expect(messages("'opens for (?<seconds>[\\d.]+) s'", "'('\n    lasted: x").length).toBeGreaterThanOrEqual(1);
    const both = loadDialect('t.yaml', GOOD.replace('lasted: took', 'lasted: tok').replace('Europe/Madrid', 'Nowhere'));
    expect(both.warnings.map((warning) => warning.source?.line)).toEqual([5, 13]);
  });

  it.each([
    ['nothing', ''],
    ['a list', '- 1\n- 2\n'],
    ['a text', 'hello'],
    ['bytes', '\0\x01\x02'],
    ['an empty map', '{}'],
    ['no lines', 'dialect: 1\ntime: { pattern: "{epoch}" }\n'],
    [
      'an alias bomb',
      `dialect: 1\na: &a [${'x,'.repeat(10)}]\n${Array.from(
        { length: 9 },
        (_, i) => `${'bcdefghij'[i]}: ` + `&${'bcdefghij'[i]} [${`*${'abcdefghi'[i]},`.repeat(10)}]`,
      ).join('\n')}\n`,
    ],
    ['deep nesting', '['.repeat(20_000)],
    ['a huge file', 'x'.repeat(2 * 2 ** 20)],
    ['a prototype', 'dialect: 1\n__proto__: { time: 1 }\nconstructor: 1\n'],
  ])('refuses %s with a reason', (_, text) => {
    const loaded = loadDialect('t.yaml', text);
    expect(loaded.dialect).toBeNull();
    expect(loaded.warnings.length).toBeGreaterThan(0);
    expect(
      loaded.warnings.every((warning) => warning.code === 'invalid-dialect' && /[.?]$/.test(warning.message)),
    ).toBe(true);
  });

  it('allows a few aliases', () => {
    const loaded = loadDialect(
      't.yaml',
      'dialect: 1\ntime: { pattern: "{epoch} " }\nlines:\n  - { when: a1, event: note, fields: &f { why: w } }\n  ' +
        '- { when: b2, event: note, fields: *f }\n',
    );
    expect(loaded.warnings).toEqual([]);
  });

  it('reports a map where a word belongs, whatever its keys are called', () => {
    const text = 'dialect: 1\ntime: { pattern: "{epoch}" }\nlines: [ { when: x, event: [ { toString: null } ] } ]\n';
    const { dialect, warnings } = loadDialect('d.yaml', text);
    expect(dialect).toBeNull();
    expect(warnings[0]?.message).toContain('{"toString":null} is not known');
  });

  it('never throws, whatever the text', () => {
    const mutated = fc
      .tuple(
        fc.nat(GOOD.length),
        fc.nat(40),
        fc.string({
          unit: fc.constantFrom(
            '{',
            '}',
            '[',
            ']',
            ':',
            '-',
            '"',
            "'",
            '&',
            '*',
            '!',
            '|',
            '\n',
            ' ',
            'a',
            '(',
            '?',
            '<',
            '\\',
            '\0',
          ),
        }),
      )
      .map(([at, length, insert]) => GOOD.slice(0, at) + insert + GOOD.slice(at + length));
    fc.assert(
      fc.property(fc.oneof(mutated, fc.string()), (text) => {
        const { dialect, warnings } = loadDialect('t.yaml', text);
        expect(dialect === null).toBe(warnings.length > 0);
      }),
      runs(1500),
    );
  });
});
