import { describe, expect, it } from 'vitest';
import { checkDialect, formatCheck, type CheckReport } from '../../../src/gather/dialects/index.js';
import { withLog } from '../lines/support/temp-log.js';
import { dialect } from './support/read.js';

const DIALECT = `dialect: 1
name: tern
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: { header: 'day (?<date>.+)', pattern: "{year}-{month}-{day}" } }
lines:
  - { when: 'shutter opens', event: exposure-begin }
  - { when: 'shutter closes', event: exposure-end }
  - { when: 'settling is over', event: settling-end }
  - { when: 'focuser gets going', event: focus-begin }
ignore: ['^fan', '^never seen']
`;

function checked(lines: readonly string[], text = DIALECT): Promise<CheckReport> {
  return withLog(`${lines.join('\n')}\n`, (root, name) => checkDialect(root, name, dialect(text)));
}

describe('checking a dialect on a log', () => {
  it('accounts for every line', async () => {
    const report = await checked([
      'day 2026-10-14',
      '21:00:00 shutter opens',
      '21:00:01 fan 1',
      '',
      '21:00:02 focuser is going at 3',
      '21:00:03 focuser is going at 4',
      '21:05:00 shutter closes',
    ]);
    expect(report.lines).toEqual({ all: 6, events: 2, sample: 0, context: 1, ignored: 1, unusable: 0, unmatched: 2 });
    expect(report.unmatched).toEqual([{ template: 'focuser is going at …', count: 2, firstLine: 5 }]);
    expect(report.rules.map((rule) => rule.count)).toEqual([1, 1, 0, 0, 1, 0]);
    expect(report.contradictions).toEqual([]);
  });

  it('tells a rule that matched nothing, with the nearest kind of line', async () => {
    const report = await checked(['day 2026-10-14', '21:00:02 focuser is going at 3', '21:00:02 other']);
    expect(report.rules[3]).toMatchObject({ dialectLine: 8, nearest: { template: 'focuser is going at …', line: 2 } });
    expect(report.rules[2]?.nearest).toMatchObject({ template: 'focuser is going at …' });
    expect(report.rules[0]?.nearest).toBeUndefined();
    const text = formatCheck(report);
    expect(text).toContain(
      'dialect line 8: focus-begin: focuser gets going\n    nearest is line 2: focuser is going at …',
    );
    expect(text).toContain('no unmatched line shares a word with it');
  });

  it('tells what contradicts itself', async () => {
    const report = await checked([
      'day 2026-10-14',
      '21:00:00 shutter closes',
      '21:00:10 shutter opens',
      '21:00:20 shutter opens',
      '21:01:00 settling is over',
      '21:02:00 focuser gets going',
      '20:50:00 shutter closes',
    ]);
    expect(report.contradictions.map(({ kind, source }) => [kind, source.line])).toEqual([
      ['end-without-begin', 2],
      ['exposures-overlap', 4],
      ['never-ends', 4],
      ['end-without-begin', 5],
      ['never-ends', 6],
      ['end-without-begin', 7],
      ['time-steps-back', 7],
    ]);
  });

  it('writes coverage, events, timeline and notes', async () => {
    const report = await checked([
      'day 2026-10-14',
      '21:00:00 shutter opens',
      '21:30:00 shutter closes',
      '22:00:00 shutter opens',
      '22:30:00 shutter closes',
      '22:30:01 x',
    ]);
    const text = formatCheck(report, ['2 events fall into daylight.']);
    expect(text).toContain('gave events                  4   66.7 %');
    expect(text).toContain('unmatched                    1   16.7 %');
    expect(text).toContain('4 events: 2 exposure-begin, 2 exposure-end');
    expect(text).toContain('  2026-10-14 21:00:00Z  line 2      exposure-begin');
    expect(text).toMatch(/21h +22h\n {2}exposure #{24,26} {22,25}#{24,26}\n/);
    expect(text).toContain('Notes\n  2 events fall into daylight.');
    expect(text.split('\n').every((line) => line.length < 160)).toBe(true);
  });

  it('is as narrow as the terminal, with a timeline whose marks stand under their hours', async () => {
    const report = await checked([
      'day 2026-10-14',
      '21:00:00 shutter opens',
      '21:30:00 shutter closes',
      '22:00:00 shutter opens',
      '22:30:00 shutter closes',
    ]);
    const text = formatCheck(report, [], 40);
    expect(text).toContain('  2026-10-14 21:00:00Z, line 2: exposure-begin');
    const [, scale = '', marks = ''] = text.split('\n').slice(text.split('\n').indexOf('Timeline (UTC)'));
    expect([scale.length <= 40, marks.length <= 40]).toEqual([true, true]);
    expect(marks.indexOf('#')).toBe(scale.indexOf('21h'));
    expect(marks.indexOf('#', marks.indexOf(' ', marks.indexOf('#')))).toBe(scale.indexOf('22h'));
  });

  it('lists the ten commonest kinds of unmatched line and the number of the others', async () => {
    const words = ['ant', 'bee', 'cat', 'dog', 'elk', 'fox', 'gnu', 'hen', 'ibex', 'jay', 'koi', 'lynx'];
    const report = await checked([
      'day 2026-10-14',
      ...words.flatMap((word, i) =>
        Array.from({ length: 12 - i }, (_, k) => `21:00:00 ${word} ${'very '.repeat(i)}${k}`),
      ),
    ]);
    expect(report.unmatchedKinds).toBe(12);
    expect(report.unmatched.length).toBe(10);
    expect(report.unmatched[0]).toMatchObject({ template: 'ant …', count: 12 });
    expect(formatCheck(report)).toContain('the 10 most common of 12 kinds');
  });

  it('does not throw on a missing log', async () => {
    const report = await checkDialect('/nonexistent', 'no.log', dialect(DIALECT));
    expect(report.lines.all).toBe(0);
    expect(formatCheck(report)).toContain('cannot be read');
  });
});
