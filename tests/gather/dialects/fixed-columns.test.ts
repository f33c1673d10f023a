import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { brief, read } from './support/read.js';

const csv = (rest: string): string => `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
csv: { ${rest} }
lines:
  - when: { what: "^opened$" }
    event: exposure-begin
    fields: { filter: "{filter}", seconds: "seconds" }
`;

describe('rows whose cells stand at fixed places', () => {
  it('are cut there, whatever stands in a cell or does not', async () => {
    const log = await read(
      csv('delimiter: fixed, starts: [0, 9, 16, 24], columns: [at, seconds, filter, what], time: at'),
      [
        'at       secs   filter  what',
        '21:03:04    300 Ha 5 nm opened',
        '21:08:20    120         opened',
        '21:10:31      - L       opened',
        '21:10:31',
        'in all 3',
      ].join('\n'),
      { sessionDate: '2026-10-14' },
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:03:04.000Z exposure-begin {"filter":"Ha 5 nm","seconds":300}',
      '2026-10-14T21:08:20.000Z exposure-begin {"seconds":120}',
      '2026-10-14T21:10:31.000Z exposure-begin {"filter":"L"}',
    ]);
  });

  it('keep their places where a line begins with blanks', async () => {
    const log = await read(
      csv('delimiter: fixed, starts: [0, 9, 18, 24], columns: [filter, at, seconds, what], time: at'),
      '         21:03:04 300   opened\nHa       21:08:20 300   opened\n',
      { sessionDate: '2026-10-14' },
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:03:04.000Z exposure-begin {"seconds":300}',
      '2026-10-14T21:08:20.000Z exposure-begin {"filter":"Ha","seconds":300}',
    ]);
  });

  it.each([
    'delimiter: fixed, columns: [at, seconds, filter, what], time: at',
    'delimiter: fixed, starts: [0, 9], columns: [at, seconds, filter, what], time: at',
    'delimiter: fixed, starts: [0, 9, 9, 24], columns: [at, seconds, filter, what], time: at',
    'delimiter: fixed, starts: [0, 9, 16, 24], header: [at, seconds, filter, what], time: at',
    'delimiter: ";", starts: [0, 9, 16, 24], columns: [at, seconds, filter, what], time: at',
  ])('need a place for each of their names: %s', (rest) => {
    const { dialect, warnings } = loadDialect('tern.yaml', csv(rest));
    expect(dialect).toBeNull();
    expect(warnings.map(({ message }) => message).join('\n')).toContain('columns at fixed positions');
  });
});

describe('an exposure that was cut short, as its row says with its beginning and length', () => {
  it('ends so, and what the row tells besides does not last as long', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
lines:
  - when: 'at (?<begin>\\S+) cut after (?<took>\\d+) s, moved (?<from>\\S+) to (?<to>\\S+)$'
    event: [dither-begin, dither-end, exposure-begin, exposure-abort]
    at: { exposure-begin: begin, dither-begin: from, dither-end: to }
    lasts: took
`,
      '21:30:00 at 21:20:00 cut after 48 s, moved 21:19:40 to 21:19:44\n',
      { sessionDate: '2026-10-14' },
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:19:40.000Z dither-begin',
      '2026-10-14T21:19:44.000Z dither-end',
      '2026-10-14T21:20:00.000Z exposure-begin',
      '2026-10-14T21:20:48.000Z exposure-abort',
    ]);
  });
});
