import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brief, codes, read } from './support/read.js';
import { runs } from '../../support/runs.js';

const NOTE = 'lines: [{ when: "mark", event: note }]\n';

async function times(
  timeRules: string,
  lines: readonly string[],
  options: Parameters<typeof read>[2] = {},
): Promise<{ times: string[]; codes: string[] }> {
  const log = await read(`dialect: 1\ntime: ${timeRules}\n${NOTE}`, lines.map((line) => `${line}\n`).join(''), options);
  return { times: log.events.map((event) => new Date(event.atMs).toISOString().slice(0, 19)), codes: codes(log) };
}

describe('times of a log', () => {
  it('may be seconds of a day whose date stands elsewhere', async () => {
    const night =
      '{ pattern: "{day-second}", zone: utc, date: { header: "night (?<date>.+)", pattern: "{year}-{month}-{day}" } }';
    const lines = (after: readonly string[]): string[] => ['night 2026-10-14', '86390.5 mark', ...after];
    const expected = ['2026-10-14T23:59:50', '2026-10-15T00:00:07', '2026-10-15T00:02:00'];
    // Begun anew at midnight, and going on past it.
    expect((await times(night, lines(['7 mark', '120 mark']))).times).toEqual(expected);
    expect((await times(night, lines(['86407 mark', '86520 mark']))).times).toEqual(expected);
  });

  it('go on past midnight under the date of the evening, where that is read from the name', async () => {
    const rules =
      '{ pattern: "{skip} {day-second}", zone: utc, date: { file: "{year}-{month}-{day}", evening: true } }';
    const lines = ['2026-10-14 86390.5 mark', '2026-10-14 7 mark'];
    expect((await times(rules, lines, { name: 'log-2026-10-14.log' })).times).toEqual([
      '2026-10-14T23:59:50',
      '2026-10-15T00:00:07',
    ]);
  });

  it('may be milliseconds of the day by the clock of the site', async () => {
    const rules = '{ pattern: "{year}-{month}-{day} {day-ms}", zone: site }';
    expect((await times(rules, ['2026-10-14 72345200 mark'], { zone: 'Europe/Madrid' })).times).toEqual([
      '2026-10-14T18:05:45',
    ]);
  });

  it('that are seconds of a day need its date from somewhere', async () => {
    await expect(times('{ pattern: "{day-second}", zone: utc }', ['7 mark'])).rejects.toThrow(
      /say where it comes from/,
    );
  });

  it("are the site's unless the dialect says otherwise", async () => {
    const local = '{ pattern: "{year}-{month}-{day} {hour}:{minute}" }';
    expect((await times(local, ['2026-10-14 21:00 mark'], { zone: 'Europe/Madrid' })).times).toEqual([
      '2026-10-14T19:00:00',
    ]);
    const unknown = await times(local, ['2026-10-14 21:00 mark']);
    expect(unknown).toEqual({ times: ['2026-10-14T21:00:00'], codes: ['no-zone'] });
    expect(
      (
        await times('{ pattern: "{year}-{month}-{day} {hour}:{minute}", zone: "-03:30" }', ['2026-10-14 21:00 mark'], {
          zone: 'Europe/Madrid',
        })
      ).times,
    ).toEqual(['2026-10-15T00:30:00']);
    expect(
      (
        await times('{ pattern: "{year}-{month}-{day} {hour}:{minute}{offset}" }', ['2026-10-14 21:00+05:00 mark'], {
          zone: 'Europe/Madrid',
        })
      ).times,
    ).toEqual(['2026-10-14T16:00:00']);
  });

  it('of day alone go past midnight, with a little disorder around it', async () => {
    const result = await times(
      '{ pattern: "{hour}:{minute}:{second}", zone: utc, date: session }',
      ['21:00:00 mark', '23:59:59 mark', '00:00:01 mark', '23:59:59 mark', '00:00:02 mark', '06:00:00 mark'],
      { sessionDate: '2026-10-14' },
    );
    expect(result.times).toEqual([
      '2026-10-14T21:00:00',
      '2026-10-14T23:59:59',
      '2026-10-15T00:00:01',
      '2026-10-14T23:59:59',
      '2026-10-15T00:00:02',
      '2026-10-15T06:00:00',
    ]);
  });

  it('of day alone count midnights on lines that match nothing, too', async () => {
    const result = await times(
      '{ pattern: "{hour}:{minute}:{second}", zone: utc, date: session }',
      ['22:00:00 mark', '23:00:00 x', '05:00:00 x', '15:00:00 x', '21:00:00 x', '22:30:00 mark'],
      { sessionDate: '2026-10-14' },
    );
    expect(result.times).toEqual(['2026-10-14T22:00:00', '2026-10-15T22:30:00']);
  });

  it('of a log begun after midnight belong to the morning of its evening', async () => {
    const rules = '{ pattern: "{hour}:{minute}:{second}", zone: utc, date: session }';
    expect((await times(rules, ['00:30:00 mark'], { sessionDate: '2026-10-14' })).times).toEqual([
      '2026-10-15T00:30:00',
    ]);
    expect(await times(rules, ['00:30:00 mark'])).toEqual({ times: [], codes: ['no-date', 'unreadable-time'] });
  });

  it("take the date from the file's name", async () => {
    const rules = (evening: boolean): string =>
      `{ pattern: "{hour}:{minute}", zone: utc, date: { file: "{year}{month}{day}", evening: ${evening} } }`;
    expect((await times(rules(false), ['00:30 mark'], { name: 'rig7-20261014.log' })).times).toEqual([
      '2026-10-14T00:30:00',
    ]);
    expect((await times(rules(true), ['00:30 mark'], { name: 'rig7-20261014.log' })).times).toEqual([
      '2026-10-15T00:30:00',
    ]);
    expect((await times(rules(true), ['00:30 mark'], { name: 'rig7.log' })).codes).toContain('no-date');
  });

  it('take the date from a header line, each time it comes', async () => {
    const result = await times(
      `{ pattern: "{hour}:{minute}", zone: utc, date: { header: 'night of (?<date>.+)', pattern: "{day} {month-name} {year}", evening: true } }`,
      ['night of 14 October 2026', '21:00 mark', '01:00 mark', 'night of 20 October 2026', '02:00 mark'],
    );
    expect(result.times).toEqual(['2026-10-14T21:00:00', '2026-10-15T01:00:00', '2026-10-21T02:00:00']);
  });

  it('find the year of stamps that print none', async () => {
    const result = await times(
      '{ pattern: "{month-name} {day} {hour}:{minute}", zone: utc, date: { file: "{year}-{month}-{day}" } }',
      ['Dec 31 23:00 mark', 'Jan 1 01:00 mark'],
      { name: '2026-12-31.log' },
    );
    expect(result.times).toEqual(['2026-12-31T23:00:00', '2027-01-01T01:00:00']);
  });

  it('count relative seconds from the line that begins the section', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: ["{year}-{month}-{day} {hour}:{minute}:{second}", "+{elapsed}"], zone: utc }
sections: [{ begin: starts here, end: stops here }]
${NOTE}`,
      '+1 mark\n2026-10-14 21:00:00 starts here\n+12.5 mark\n2026-10-14 21:01:00 mark\n2026-10-14 21:02:00 stops here\n+20 mark\n',
    );
    expect(log.events.map((event) => new Date(event.atMs).toISOString().slice(11, 21))).toEqual([
      '21:00:12.5',
      '21:01:00.0',
    ]);
    expect(codes(log)).toEqual(['unreadable-time', 'unreadable-time']);
  });
});

describe('the end of summer time', () => {
  const LOCAL = '{ pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: Europe/Madrid }';

  it('is found by the step back', async () => {
    const result = await times(LOCAL, [
      '2026-10-25 01:59:59 mark',
      '2026-10-25 02:00:00 mark',
      '2026-10-25 02:59:59 mark',
      '2026-10-25 02:00:01 mark',
      '2026-10-25 02:59:00 mark',
      '2026-10-25 03:00:00 mark',
    ]);
    expect(result).toEqual({
      times: [
        '2026-10-24T23:59:59',
        '2026-10-25T00:00:00',
        '2026-10-25T00:59:59',
        '2026-10-25T01:00:01',
        '2026-10-25T01:59:00',
        '2026-10-25T02:00:00',
      ],
      codes: [],
    });
  });

  it('is stated by a letter behind the hour, however the lines follow each other', async () => {
    // The German law on time, section 4 of the ordinance of 1978 on summer time, names both hours so (from memory).
    const result = await times(LOCAL, [
      '2026-10-25 2A:20:00 mark',
      '2026-10-25 2B:07:00 mark',
      '2026-10-25 2A:59:00 mark',
    ]);
    expect(result).toEqual({
      times: ['2026-10-25T00:20:00', '2026-10-25T01:07:00', '2026-10-25T00:59:00'],
      codes: [],
    });
  });

  it('is found by steps between lines that match nothing', async () => {
    const result = await times(LOCAL, [
      '2026-10-25 01:50:00 mark',
      '2026-10-25 02:58:00 x',
      '2026-10-25 02:10:00 x',
      '2026-10-25 02:20:00 mark',
      '2026-10-25 04:00:00 mark',
    ]);
    expect(result.times).toEqual(['2026-10-24T23:50:00', '2026-10-25T01:20:00', '2026-10-25T03:00:00']);
  });

  it('is reported when nothing distinguishes the two passes', async () => {
    const result = await times(LOCAL, [
      '2026-10-25 01:50:00 mark',
      '2026-10-25 02:20:00 mark',
      '2026-10-25 03:10:00 mark',
    ]);
    expect(result.times[1]).toBe('2026-10-25T00:20:00');
    expect(result.codes).toEqual(['repeated-hour']);
  });

  it.each([
    ['of seconds', ['02:30:02', '02:30:00', '02:31:00'], ['00:30:02', '00:30:00', '00:31:00']],
    ['of rows stamped by their beginnings', ['02:30:00', '02:10:00', '02:31:00'], ['00:30:00', '00:10:00', '00:31:00']],
    [
      'at the step itself',
      ['02:59:58', '02:00:01', '02:59:59', '02:00:03'],
      ['00:59:58', '01:00:01', '00:59:59', '01:00:03'],
    ],
  ])('does not take disorder %s for a step back', async (_, walls, instants) => {
    const result = await times(
      LOCAL,
      walls.map((wallTime) => `2026-10-25 ${wallTime} mark`),
    );
    expect(result.times).toEqual(instants.map((instant) => `2026-10-25T${instant}`));
  });

  it('is passed in logs that print the time of day alone', async () => {
    const result = await times(
      '{ pattern: "{hour}:{minute}:{second}", zone: Europe/Madrid, date: session }',
      ['23:00:00 mark', '01:30:00 mark', '02:30:00 mark', '02:00:00 mark', '03:30:00 mark'],
      { sessionDate: '2026-10-24' },
    );
    expect(result).toEqual({
      times: [
        '2026-10-24T21:00:00',
        '2026-10-24T23:30:00',
        '2026-10-25T00:30:00',
        '2026-10-25T01:00:00',
        '2026-10-25T02:30:00',
      ],
      codes: [],
    });
  });

  it('and its beginning give every instant back, for a log that never pauses half an hour', async () => {
    const format = new Intl.DateTimeFormat('sv-SE', {
      timeZone: 'Europe/Madrid',
      dateStyle: 'short',
      timeStyle: 'medium',
    });
    const steps = fc.array(fc.integer({ min: 1, max: 29 * 60 }), { minLength: 20, maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(Date.UTC(2026, 9, 24, 22), Date.UTC(2026, 2, 28, 22), Date.UTC(2026, 9, 14, 22)),
        steps,
        fc.boolean(),
        async (startMs, gaps, dateless) => {
          let at = startMs;
          const instants = gaps.map((gap) => (at += gap * 1000));
          const lines = instants.map((ms) => `${format.format(ms).slice(dateless ? 11 : 0)} mark`);
          const rules = dateless
            ? '{ pattern: "{hour}:{minute}:{second}", zone: Europe/Madrid, date: session }'
            : LOCAL;
          const result = await times(rules, lines, { sessionDate: new Date(startMs).toISOString().slice(0, 10) });
          const expected = instants.map((ms) => new Date(ms).toISOString().slice(0, 19));
          expect(result.times).toEqual(expected);
        },
      ),
      runs(60),
    );
  });

  it('is reported when a reading falls into the hour that the beginning skips', async () => {
    const result = await times(LOCAL, ['2026-03-29 02:30:00 mark']);
    expect(result).toEqual({ times: ['2026-03-29T01:30:00'], codes: ['skipped-hour'] });
  });
});

describe('a heading of the day', () => {
  const DIALECT = `dialect: 1
time:
  pattern: "{hour}:{minute}:{second}"
  zone: utc
  date: { header: '^== (?<date>\\d+ \\p{L}+)', pattern: "{day} {month-name}", evening: false, year: 2026 }
lines: [{ when: open, event: exposure-begin }]
`;

  it('has the year that the dialect states', async () => {
    expect(brief(await read(DIALECT, '== 14 October\n21:00:00 open\n== 15 October\n00:00:07 open\n'))).toEqual([
      '2026-10-14T21:00:00.000Z exposure-begin',
      '2026-10-15T00:00:07.000Z exposure-begin',
    ]);
  });

  it('has the year of the file where the dialect says so', async () => {
    const log = await read(DIALECT.replace('year: 2026', 'year: file'), '== 14 October\n21:00:00 open\n', {
      name: 'book_2027.log',
    });
    expect(brief(log)).toEqual(['2027-10-14T21:00:00.000Z exposure-begin']);
  });

  it('may stand before a line that tells of the last minute of the day before', async () => {
    expect(
      brief(await read(DIALECT, '== 14 October\n23:58:00 open\n== 15 October\n23:59:10 open\n00:01:00 open\n')),
    ).toEqual([
      '2026-10-14T23:58:00.000Z exposure-begin',
      '2026-10-14T23:59:10.000Z exposure-begin',
      '2026-10-15T00:01:00.000Z exposure-begin',
    ]);
    // The next night's first line, not the end of the last one's.
    expect(
      brief(await read(DIALECT, '== 14 October\n23:00:00 open\n== 15 October\n23:10:00 open\n23:59:00 open\n')).slice(
        -1,
      ),
    ).toEqual(['2026-10-15T23:59:00.000Z exposure-begin']);
  });
});

describe('stamps that lack the year alone', () => {
  const LINES = ['lines:', "  - { when: 'open', event: exposure-begin }"];

  it('take it from a line that states it, across the New Year', async () => {
    const log = await read(
      [
        'dialect: 1',
        `time: { pattern: "{month-name} {day} {hour}:{minute}:{second}", zone: utc, date: { header: 'year (?<date>[0-9]+)', pattern: "{year}" } }`,
        ...LINES,
      ].join('\n'),
      'Dec 31 23:00:00 begins, year 2026\nDec 31 23:00:05 open\nJan 1 00:10:00 open\n',
    );
    expect(brief(log)).toEqual(['2026-12-31T23:00:05.000Z exposure-begin', '2027-01-01T00:10:00.000Z exposure-begin']);
  });

  it('may have the day of the year', async () => {
    const log = await read(
      [
        'dialect: 1',
        `time: { pattern: "{day-of-year}/{hour}:{minute}:{second}", zone: utc, date: { file: "night-{year}" } }`,
        ...LINES,
      ].join('\n'),
      '061/00:00:05 open\n',
      { name: 'night-2028.log' },
    );
    // 2028 is a leap year: its 61st day is the first of March (Gregorian calendar).
    expect(brief(log)).toEqual(['2028-03-01T00:00:05.000Z exposure-begin']);
  });
});
