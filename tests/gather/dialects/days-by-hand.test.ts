import { describe, expect, it } from 'vitest';
import { areAll, beginsIn, proseOf, tableOf } from './support/clocked-logs.js';

/** The parts of an instant in Madrid's summer time, UTC+2. */
const inMadrid = (ms: number): { day: number; clock: string } => {
  const iso = new Date(ms + 7_200_000).toISOString();
  return { day: Number(iso.slice(8, 10)), clock: iso.slice(11, 19) };
};
const isMidweek = (day: number): boolean => day === 14;

/** A stamp whose date is written where a day begins, and left out below. */
const onceADay = (date: (day: number) => string, mark = ';'): ((ms: number) => string) => {
  let last = 0;
  return (ms) => {
    const { day, clock } = inMadrid(ms);
    const text = day === last ? '' : date(day);
    last = day;
    return `${text}${mark}${clock}`;
  };
};

// How people write dates by hand: common practice, no source. 14 October 2026 is a Wednesday.
describe('a column with the date where a day begins', () => {
  it.each([
    ['the day of the week before it', (day: number): string => `${isMidweek(day) ? 'Wed' : 'Thu'} ${day} Oct 26`],
    ['the day of the week behind it', (day: number): string => `2026-10-${day} (${isMidweek(day) ? 'Mi' : 'Do'})`],
    [
      'a comma between them, in quotes',
      (day: number): string => `"${isMidweek(day) ? 'Wednesday' : 'Thursday'}, ${day} October 2026"`,
    ],
    ['only day and month, the day first', (day: number): string => `${day}/10`],
    ['only day and month, the month first', (day: number): string => `10/${day}`],
  ])('may have %s', async (_, date) => {
    const lines = tableOf('date;time', onceADay(date));
    const { yaml, found } = await beginsIn(['Cierzo Hill, autumn 2026', ...lines], 'night.csv');
    expect(areAll(found), yaml).toBe(true);
  });

  it('tells day from month by the day that follows', async () => {
    const shifted = (day: number): string => `0${day - 10}.11.26`;
    const lines = tableOf('date\ttime', onceADay(shifted, '\t')).map((line) => line.replaceAll(';', '\t'));
    const { yaml } = await beginsIn(lines, 'night.tsv');
    expect(yaml).toContain("pattern: '{day}.{month}.{year2}'");
    expect(yaml).not.toContain('UNDECIDED');
  });
});

describe('both days of a night at the head', () => {
  it.each([
    ['Nacht: 09.10.2026 auf 10.10.2026', '{day}.{month}.{year}'],
    ['Night of 10/09/2026 to 10/10/2026', '{month}/{day}/{year}'],
  ])('tell day from month: %s', async (head, order) => {
    const { yaml } = await beginsIn([head, ...proseOf((ms) => inMadrid(ms).clock)], 'night.txt');
    expect(yaml).toContain(`pattern: '${order}'`);
    expect(yaml).not.toContain('UNDECIDED');
  });
});

describe('hours and minutes with a point between them', () => {
  const minutes = (ms: number): string => inMadrid(ms).clock.slice(0, 5).replace(':', '.');
  it.each([
    ['a list', (ms: number): string => `- ${minutes(ms)}`],
    ['a list with stars', (ms: number): string => `* ${minutes(ms)}`],
    ['brackets', (ms: number): string => `[${minutes(ms)}]`],
    ['a list, without the point', (ms: number): string => `- ${minutes(ms).replace('.', '')}`],
  ])('are a time in %s', async (_, stamp) => {
    const { yaml, found } = await beginsIn(['Wednesday, 14 October 2026', '', ...proseOf(stamp)], 'night.txt');
    // To the minute, as written.
    expect(found, yaml).toHaveLength(30);
    expect(found[0]).toBe(0);
    expect(found.at(-1)).toBe(Math.floor((12 + 29 * 312) / 60) * 60);
  });
});

describe('a page with its newest line on top', () => {
  it.each([
    ['quarta-feira', 'quinta-feira', (text: string): string => text],
    ['Mittwoch', 'Donnerstag', (text: string): string => `== ${text} ==`],
  ])('has the lines of a day below its heading: %s', async (evening, morning, heading) => {
    const lines = proseOf((ms) => inMadrid(ms).clock).toReversed();
    const first = lines.findIndex((line) => line.startsWith('23:'));
    const page = [
      heading(`${morning}, 15 October 2026`),
      ...lines.slice(0, first),
      heading(`${evening}, 14 October 2026`),
      ...lines.slice(first),
    ];
    const { yaml, found } = await beginsIn(page, 'page.txt');
    expect(areAll([...found].sort((a, b) => a - b)), yaml).toBe(true);
  });
});
