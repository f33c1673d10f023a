import { describe, expect, it } from 'vitest';
import { draftDialect } from '../../../src/gather/dialects/index.js';
import { dateOrder } from '../../../src/gather/dialects/draft/time/night-evidence.js';
import { sampleOf } from './support/drafted.js';
import { codes, read } from './support/read.js';

const MARCH_4 = Date.UTC(2026, 2, 4);
const APRIL_3 = Date.UTC(2026, 3, 3);
const DAY_FIRST = '{day}/{month}/{year} {hour}:{minute}';
const MONTH_FIRST = '{month}/{day}/{year} {hour}:{minute}';
const TEXT = '03/04/2026 21:00';

describe('a date of digits that can be read either way', () => {
  it.each([
    ['falls on the night of the frames', [MARCH_4], NaN, MONTH_FIRST, 'night'],
    ['falls on the night of the frames, whatever the time of the file', [APRIL_3], MARCH_4, DAY_FIRST, 'night'],
    ['is near the time of the file where no night is known', [], MARCH_4 + 1e8, MONTH_FIRST, 'file-time'],
    ['is open where the file was copied later', [], Date.UTC(2026, 8, 1), DAY_FIRST, null],
    ['is open where frames are of another night', [Date.UTC(2026, 8, 1)], NaN, DAY_FIRST, null],
  ])('%s', (_, days, writtenMs, pattern, by) => {
    expect(dateOrder(DAY_FIRST, TEXT, { days, writtenMs })).toEqual({ pattern, by, isOpen: by === null });
  });

  it('stays as it is where the month has a name, the year comes first, or a day is no month', () => {
    const night = { days: [MARCH_4], writtenMs: NaN };
    for (const [pattern, text] of [
      ['{day} {month-name} {year}', '3 April 2026'],
      ['{year}-{month}-{day}', '2026-04-03'],
      ['{day}/{month}/{year}', '13/04/2026'],
      ['{hour}:{minute}', '03:04'],
    ] as const)
      expect(dateOrder(pattern, text, night)).toEqual({ pattern, by: null, isOpen: false });
  });
});

describe('the draft of a log with such dates', () => {
  const minutes = Array.from({ length: 12 }, (_, i) => String(5 * i).padStart(2, '0'));
  const lines = minutes.map((minute) => `03/04/2026 21:${minute}:10 exposure started: 300 s, Ha, M 33`);
  const headed = ['Night of 03/04/2026', ...lines.map((line) => line.slice(11))];
  const frames = [{ file: 'a.fits', beginMs: MARCH_4 + 72_000_000, seconds: 300 }];

  it('takes the order from the frames, for stamps and for a date at the head', () => {
    const { yaml, report } = draftDialect(sampleOf(lines), { frames });
    expect(yaml).toContain("'{month}/{day}/{year} {hour}:{minute}:{second}'");
    expect(report).toMatchObject({ orderBy: 'night', stamp: { dayFirstAssumed: false } });
    expect(draftDialect(sampleOf(headed), { frames }).report.date).toMatchObject({ pattern: '{month}/{day}/{year}' });
  });

  it('takes it from the file where no frames are known, and says so', () => {
    const { yaml } = draftDialect({ ...sampleOf(lines), writtenMs: MARCH_4 + 90_000_000 });
    expect(yaml).toContain("'{month}/{day}/{year} {hour}:{minute}:{second}'");
    expect(yaml).toContain('LOOK AT THIS: day and month');
  });

  it.each([
    ['stamps', lines],
    ['a date at the head', headed],
  ])('asks where nothing tells the order of %s, with both ways to write it', (_, text) => {
    const { yaml, report } = draftDialect(sampleOf(text));
    expect(report.orderIsOpen).toBe(true);
    expect(yaml.split('\n')[1]).toMatch(/^# UNDECIDED: .*day or the month/);
    expect(yaml).toContain('Whether day or month comes first is undetermined');
    expect(yaml).toMatch(/# {3}the day first: {3}'\{day\}\/\{month\}/);
    expect(yaml).toMatch(/# {3}the month first: '\{month\}\/\{day\}/);
    expect(yaml).toContain('\n  order: by-night\n');
  });

  it.each([
    ['2026-04-03', APRIL_3],
    ['2026-03-04', MARCH_4],
  ])('is read on the night of %s, when that is the session’s', async (sessionDate, dayMs) => {
    for (const text of [lines, headed]) {
      const { yaml } = draftDialect(sampleOf(text));
      const log = await read(yaml, `${text.join('\n')}\n`, { sessionDate, zone: 'UTC' });
      expect(codes(log)).not.toContain('undecided-date');
      expect(log.events[0]?.atMs).toBe(dayMs + 75_610_000);
    }
  });

  it.each([undefined, '2026-09-01'])('is undecided on the night of %s', async (sessionDate) => {
    const { yaml } = draftDialect(sampleOf(lines));
    const log = await read(yaml, `${lines.join('\n')}\n`, { sessionDate, zone: 'UTC' });
    expect(log.warnings[0]).toMatchObject({ code: 'undecided-date' });
  });
});
