import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 19);
const DATE = '2026-10-14';
const clock = (s: number): string => new Date(EVENING_MS + s * 1000).toISOString().slice(11, 19);

const EXPOSURES = Array.from({ length: 24 }, (_, n) => {
  const begin = 600 + n * 246 + Math.floor(n / 3) * 40;
  return { begin, end: begin + 240, isLast: (n + 1) % 3 === 0 };
});
const DITHERS = EXPOSURES.filter(({ isLast }) => isLast).map(({ end }, i) => [
  end + 1,
  end - 150 - i,
  end + 2,
  end + 5,
  end + 5,
  end + 22,
]);

const logOf = (titles: string): string[] => [
  `Night of ${DATE}, all times UTC`,
  '',
  'EXPOSURES',
  'train;filter;seconds;begin;end;file',
  ...EXPOSURES.map(
    ({ begin, end }, n) => `heron;${n < 12 ? 'L' : 'Ha'};240;${clock(begin)};${clock(end)};heron_${n}.fits`,
  ),
  '',
  'DITHERS',
  titles,
  ...DITHERS.map((times, i) => [i + 1, ...times.map(clock), (2 + (i % 5) / 3).toFixed(1)].join(';')),
];

describe('columns of times that are titled by events', () => {
  it.each([
    [
      'English',
      'no;heron waiting since;wren waiting since;dither start;dither finish;settling start;settling finish;px',
    ],
    ['Portuguese', 'n.º;pronto heron;pronto wren;início do dither;fim do dither;início da calma;calmo;px'],
    ['German', 'Nr;heron bereit;wren bereit;Versatz Beginn;Versatz Ende;Beruhigung Beginn;beruhigt;px'],
    ['no word for the wait', 'no;heron zib;wren zib;dither start;dither finish;settling start;settled;px'],
  ])('are one event each, those of each train apart: %s', async (_, titles) => {
    const log = logOf(titles);
    const { yaml } = drafted(log);
    const got = brief(await read(yaml, `${log.join('\n')}\n`, { zone: 'UTC', sessionDate: DATE }))
      .filter((one) => !/exposure|frame/.test(one))
      .map((one) => one.slice(11).replace(/\.000Z| \{.*/g, ''));
    const expected = DITHERS.flatMap(([heron = 0, wren = 0, ...times]) => [
      ...['dither-begin', 'dither-end', 'settling-begin', 'settling-end'].map(
        (event, i) => `${clock(times[i] ?? 0)} ${event}`,
      ),
      `${clock(heron)} dither-ready heron`,
      `${clock(wren)} dither-ready wren`,
    ]);
    expect(got.sort(), yaml).toEqual(expected.sort());
  });

  it.each([
    ['English', 'no;dither start;dither end;calm since;px'],
    ['Polish', 'lp.;początek ruchu;koniec ruchu;spokój od;px'],
  ])('state since when it is calm: settling begins with the end of the move, and ends then: %s', async (_, titles) => {
    const log = [
      ...logOf(titles).slice(0, -DITHERS.length),
      ...DITHERS.map(([, , begin = 0, end = 0, , calm = 0], i) =>
        [i + 1, clock(begin), clock(end), clock(calm), (2 + (i % 5) / 3).toFixed(1)].join(';'),
      ),
    ];
    const { yaml } = drafted(log);
    const night = brief(await read(yaml, `${log.join('\n')}\n`, { zone: 'UTC', sessionDate: DATE }));
    const calm = night.filter((one) => one.includes('settling-end')).map((one) => one.slice(11, 19));
    expect(calm, yaml).toEqual(DITHERS.map((times) => clock(times[5] ?? 0)));
    expect(night.filter((one) => one.includes('settling-begin') && calm.includes(one.slice(11, 19)))).toEqual([]);
  });
});
