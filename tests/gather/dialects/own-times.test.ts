import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { brief, read } from './support/read.js';

describe('events at times of their own ("at")', () => {
  const DIALECT = `dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc, caught: "{hour}:{minute}:{second}" }
lines:
  - when: 'frame (?<file>\\S+) from (?<from>[\\d:]+) to (?<to_>[\\d:]+)'
    event: [exposure-begin, exposure-end, frame-saved]
    at: { exposure-begin: from, exposure-end: to_ }
`;

  it('stand on the day that brings them nearest to the line, past midnight too', async () => {
    const log = await read(DIALECT, '2026-10-15 00:03:10 frame a.fits from 23:57:55 to 00:02:55\n');
    expect(brief(log).map((one) => one.slice(0, 39).trim())).toEqual([
      '2026-10-14T23:57:55.000Z exposure-begin',
      '2026-10-15T00:02:55.000Z exposure-end {',
      '2026-10-15T00:03:10.000Z frame-saved {"',
    ]);
  });

  it('do not move the clock of the lines after them', async () => {
    const log = await read(
      DIALECT,
      '2026-10-15 00:03:10 frame a.fits from 23:57:55 to 00:02:55\n2026-10-15 00:09:10 frame b.fits from 00:03:55 to 00:08:55\n',
    );
    expect(log.events.map(({ atMs }) => new Date(atMs).toISOString().slice(11, 19))).toEqual([
      '23:57:55',
      '00:02:55',
      '00:03:10',
      '00:03:55',
      '00:08:55',
      '00:09:10',
    ]);
  });

  it('may count from the base of a section', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: '{elapsed-ms}/', zone: utc, caught: '{elapsed-ms}' }
sections: [{ begin: 'since (?<time>.+)$', base: '{year}-{month}-{day}T{hour}:{minute}:{second}{offset}' }]
lines: [{ when: '^(?<end>\\d+) exposed', event: [exposure-begin, exposure-end], at: { exposure-end: end } }]
`,
      'since 2026-10-14T21:00:00+02:00\n00001000/00301500 exposed\n',
    );
    expect(brief(log)).toEqual(['2026-10-14T19:00:01.000Z exposure-begin', '2026-10-14T19:05:01.500Z exposure-end']);
  });

  it('must be caught, and go with an event of the rule', () => {
    const wrong = (at: string): string =>
      loadDialect('d.yaml', DIALECT.replace('exposure-begin: from', at))
        .warnings.map(({ message }) => message)
        .join(' ');
    expect(wrong('exposure-begin: nowhere')).toContain('nowhere');
    expect(wrong('slew-begin: from')).toContain('none of the events of this rule');
  });
});
