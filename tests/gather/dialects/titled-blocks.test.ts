import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const DIALECT = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
entries: { start: '^\\S' }
records: { as: titled, time: { first: [from, at] } }
lines:
  - { when: { title: '^frame$' }, event: [exposure-begin, exposure-end], at: { exposure-end: to } }
  - { when: { title: '^dither$' }, event: dither-begin }
`;

describe('blocks under titles', () => {
  it('have the time of the first field that they have', async () => {
    const log = await read(DIALECT, '[frame 7]\n  from: 22:00:00\n  to: 22:05:00\n\n[dither]\n  at: 22:05:03\n', {
      sessionDate: '2026-10-14',
    });
    expect(brief(log)).toEqual([
      '2026-10-14T22:00:00.000Z exposure-begin',
      '2026-10-14T22:05:00.000Z exposure-end',
      '2026-10-14T22:05:03.000Z dither-begin',
    ]);
  });

  it('are drafted so, their year stated in one of them', async () => {
    const two = (value: number): string => String(value).padStart(2, '0');
    const clock = (minutes: number, seconds: number): string =>
      `045/${two(19 + Math.floor(minutes / 60))}:${two(minutes % 60)}:${two(seconds)}`;
    const lines = [
      '[run]',
      'year = 2026',
      'scale of time = UTC',
      ...Array.from({ length: 30 }, (_, i) => [
        `[frame ${i + 1}]`,
        'filter = Ha',
        'exposure = 300 s',
        `begin = ${clock(i * 6, 5)}`,
        `end = ${clock(i * 6 + 5, 5)}`,
        `file = ngc281_${i + 1}.fits`,
        '[dither]',
        `at = ${clock(i * 6 + 5, 20)}`,
        `amount = 3.${i % 9} px`,
      ]).flat(),
    ];
    const { yaml } = drafted(lines);
    expect(yaml).toContain('as: titled');
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    const of = (name: string): number[] => events.filter(({ event }) => event === name).map(({ atMs }) => atMs);
    // The 45th day of 2026 is 14 February (Gregorian calendar).
    const zeroMs = Date.UTC(2026, 1, 14, 19);
    const minutes = Array.from({ length: 30 }, (_, i) => zeroMs + i * 360_000);
    expect(of('exposure-begin')).toEqual(minutes.map((ms) => ms + 5000));
    expect(of('exposure-end')).toEqual(minutes.map((ms) => ms + 305_000));
  });

  it('may name the day of the week before the date, and say behind a file when it was written', async () => {
    const lines = Array.from({ length: 30 }, (_, i) => {
      const begun = new Date(Date.UTC(2026, 8, 11, 20) + i * 600_000);
      const at = (ms: number): string => new Date(begun.getTime() + ms).toISOString().slice(11, 19);
      const day = begun.getUTCDate() === 11 ? 'Fr 11.09.2026' : 'Sa 12.09.2026';
      return [
        `[${String(i + 1).padStart(3, '0')}] Aufnahme`,
        '  Filter  : Ha',
        `  Beginn  : ${day} ${at(0)}`,
        '  Vorgabe : 480 s',
        `  Datei   : ic1396_${i + 1}.fits, geschrieben um ${at(484_000)}`,
        '',
      ];
    }).flat();
    const { yaml } = drafted(['Kasten heron, UTC', '', ...lines]);
    const { events } = await read(yaml, `Kasten heron, UTC\n\n${lines.join('\n')}\n`);
    const begins = events.flatMap(({ event, atMs }) => (event === 'exposure-begin' ? [atMs] : []));
    expect(begins, yaml).toEqual(Array.from({ length: 30 }, (_, i) => Date.UTC(2026, 8, 11, 20) + i * 600_000));
    expect(events.filter(({ event }) => event === 'exposure-end')).toHaveLength(30);
  });
});
