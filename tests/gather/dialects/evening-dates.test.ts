import { describe, expect, it } from 'vitest';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { codes, read } from './support/read.js';

/** 14 October 2026, 20:00 UTC; the night's date stays that of its evening. */
const T0 = Date.UTC(2026, 9, 14, 20);
const NIGHTS = [T0, T0 + 86_400_000];
const clock = (ms: number): string => new Date(ms).toISOString().slice(11, 19);
const evening = (ms: number): string => new Date(ms - 43_200_000).toISOString().slice(0, 10);
const pointed = (ms: number): string => evening(ms).split('-').reverse().join('.');

/** Exposures of a night, past its midnight. */
const EXPOSURES = NIGHTS.map((t0) => Array.from({ length: 60 }, (_, i) => t0 + i * 320_000));
const FILTERS = ['Ha', 'OIII', 'L'];

async function begins(lines: readonly string[], name: EventName = 'exposure-begin'): Promise<number[]> {
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-10-14' });
  expect(codes(log)).toEqual([]);
  return log.events.filter(({ event }) => event === name).map(({ atMs }) => atMs);
}

describe('a log that keeps the date of the evening past midnight', () => {
  it('has it in a column, beside those of begin and end', async () => {
    const lines = [
      'Nacht;Beginn;Ende;Filter;Sekunden;Datei',
      ...EXPOSURES.flat().map((ms, i) =>
        [pointed(ms), clock(ms), clock(ms + 300_000), FILTERS[i % 3], 300, `ngc7000_${i}.fits`].join(';'),
      ),
    ];
    expect(drafted(lines).yaml).toContain('evening: true');
    expect(await begins(lines)).toEqual(EXPOSURES.flat());
    expect(await begins(lines, 'exposure-end')).toEqual(EXPOSURES.flat().map((ms) => ms + 300_000));
  });

  it('has it in front of sentences', async () => {
    const lines = EXPOSURES.flat().flatMap((ms) => [
      `${evening(ms)} ${clock(ms)} shutter open for 300 s`,
      `${evening(ms + 300_000)} ${clock(ms + 300_000)} shutter closed`,
    ]);
    expect(await begins(lines)).toEqual(EXPOSURES.flat());
  });

  it('has it in records, a section for each train', async () => {
    const lines = ['heron', 'wren'].flatMap((train) =>
      (EXPOSURES[0] ?? []).flatMap((ms) => [
        JSON.stringify({ night: evening(ms), t: clock(ms), train, what: 'exposure started', seconds: 300 }),
        JSON.stringify({ night: evening(ms), t: clock(ms + 300_000), train, what: 'exposure finished' }),
      ]),
    );
    const [first = []] = EXPOSURES;
    expect((await begins(lines)).sort((a, b) => a - b)).toEqual(first.flatMap((ms) => [ms, ms]));
  });

  it('has it in a heading for each night, the second of which begins past midnight', async () => {
    const late = EXPOSURES.map((night, i) => (i === 0 ? night : night.map((ms) => ms + 5 * 3_600_000)));
    const lines = late.flatMap((night) => [
      `Night of ${evening(night[0] ?? NaN)}`,
      ...night.flatMap((ms) => [`${clock(ms)} exposure begins, 300 s`, `${clock(ms + 300_000)} exposure ends`]),
    ]);
    expect(await begins(lines)).toEqual(late.flat());
  });

  it('has it at the head of each page, on this side of midnight and on the other', async () => {
    const [night = []] = EXPOSURES;
    const lines = night.flatMap((ms, i) => [
      ...(i % 10 === 0 ? [`PAGE ${i / 10 + 1}   NIGHT OF 2026-10-14`] : []),
      `${clock(ms)} exposure begins, 300 s`,
      `${clock(ms + 300_000)} exposure ends`,
    ]);
    expect(await begins(lines)).toEqual(night);
  });
});

it('does not take a date that stands in a heading somewhat after midnight for that of an evening', async () => {
  const [night = []] = EXPOSURES;
  const lines = night.flatMap((ms, i) => [
    ...(i === 0 ? ['Day 2026-10-14'] : []),
    // The fiftieth exposure is the first of a new target, an hour past midnight.
    ...(i === 50 ? ['Day 2026-10-15'] : []),
    `${clock(ms)} exposure begins, 300 s`,
    `${clock(ms + 300_000)} exposure ends`,
  ]);
  expect(await begins(lines)).toEqual(night);
});

it.each(['day=', 'Datum: '])(
  'does not take a date for that of an evening that midnight states and a restart repeats: %s',
  async (head) => {
    const [night = []] = EXPOSURES;
    const lines = night.flatMap((ms, i) => [
      // The forty-fifth exposure begins at midnight, the fifty-second after a restart.
      ...(i === 0 || i === 45 || i === 52 ? [`${head}${new Date(ms).toISOString().slice(0, 10)}`] : []),
      `${clock(ms)} exposure begins, 300 s`,
      `${clock(ms + 300_000)} exposure ends`,
    ]);
    expect(await begins(lines)).toEqual(night);
  },
);

it('does not take the dates of a log for evenings that go on at midnight, or are logged newest first', () => {
  const dated = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19).replace('T', ' ')}`;
  const lines = EXPOSURES.flat().flatMap((ms) => [
    `${dated(ms)} exposure begins, 300 s`,
    `${dated(ms + 300_000)} exposure ends`,
  ]);
  for (const log of [lines, lines.toReversed()]) expect(drafted(log).yaml).not.toContain('evening:');
});
