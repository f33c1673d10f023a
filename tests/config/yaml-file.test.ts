import { describe, expect, it } from 'vitest';
import { parseRig, readYaml } from '../../src/config/index.js';
import { loadDialect } from '../../src/gather/dialects/index.js';

const TEXT = `first: 1
list:
  - name: a
  - &second
    name: b
    inner:
      7: seven
again: *second
`;

describe('a place in a YAML text', () => {
  const read = readYaml(TEXT);
  const lineOf = (...path: PropertyKey[]) => (read.ok ? read.yaml.lineOf(path) : NaN);

  it('is the line of the key or of the list item', () => {
    expect([lineOf('first'), lineOf('list'), lineOf('list', 0), lineOf('list', 1, 'name')]).toEqual([1, 2, 3, 5]);
  });

  it('is the nearest thing above that is written', () => {
    expect(lineOf('list', 0, 'missing', 'deeper')).toBe(3);
    expect(lineOf('nothing')).toBe(1);
    expect(lineOf('list', 9)).toBe(2);
  });

  it('is found for keys that are numbers, and through an alias', () => {
    expect(lineOf('list', 1, 'inner', '7')).toBe(7);
    expect(lineOf('again', 'name')).toBe(5);
  });
});

describe('what is no YAML', () => {
  it.each([
    ['nesting beyond the stack', '['.repeat(20_000), 'nested too deeply'],
    ['maps nested beyond the stack', '{'.repeat(50_000), 'nested too deeply'],
    ['a file too large', 'x'.repeat(2_000_001), '2 MB'],
    ['an alias within what it refers to', 'a: 1\nb: &b [ 1, { c: *b } ]', 'an alias refers to its own container'],
    [
      'aliases that unfold without end',
      `a: &a [${'x,'.repeat(10)}]\nb: &b [${'*a,'.repeat(10)}]\nc: &c [${'*b,'.repeat(10)}]\nd: [${'*c,'.repeat(10)}]`,
      'fewer aliases',
    ],
  ])('is refused with a reason, never thrown: %s', (_, text, reason) => {
    const refused = readYaml(text);
    expect(refused.ok ? 'read' : refused.problems[0].message).toContain(reason);
  });
});

describe('the same fault in a rig file and in a dialect', () => {
  const rig = 'trains:\n  - { id: heron }\n  - { id: 5 }\n';
  const dialect =
    'dialect: 1\ntime: { pattern: "{epoch}" }\nlines:\n  - { when: a, event: note }\n  - { when: b, event: nap }\n';

  it('is named with its line, and the second item of a list as #2', () => {
    expect(() => parseRig('rig.yaml', rig)).toThrow(/^rig\.yaml:3: trains#2\.id /m);
    const [warning] = loadDialect('d.yaml', dialect).warnings;
    expect(warning?.source?.line).toBe(5);
    expect(warning?.message).toContain('lines#2.event: ');
  });
});
