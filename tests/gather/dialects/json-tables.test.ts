import { describe, expect, it } from 'vitest';
import { documentLines } from '../../../src/gather/dialects/document/document-records.js';
import { draftDialect, loadDialect, readDialectLog, readSample } from '../../../src/gather/dialects/index.js';
import type { LogRead } from '../../../src/gather/lines/log-read.js';
import { inFull } from '../../support/runs.js';
import { withLog } from '../lines/support/temp-log.js';

/** A night of sixty exposures, every third with a dither behind it, as `[time, train, what]`. */
const ROWS = Array.from({ length: 60 }, (_, i) => {
  const at = (seconds: number): string =>
    new Date(Date.UTC(2026, 8, 16, 20) + (i * 330 + seconds) * 1000).toISOString();
  const dither = [
    [at(303), 'east', 'dither begins'],
    [at(309), 'east', 'dither ends'],
  ];
  return [[at(0), 'east', 'exposure begins'], [at(300), 'east', 'exposure ends'], ...(i % 3 === 2 ? dither : [])];
}).flat();
const COLUMNS = ['when', 'unit', 'what'];

/** Rows with the number of what happened in place of its name, counted from a first one. */
function numbered(rows: typeof ROWS, names: readonly string[], first: number): unknown[][] {
  return rows.map(([when = '', unit = '', what = '']) => [when, unit, names.indexOf(what) + first]);
}

/** What a draft of a document reads in it. */
async function readLog(document: unknown, indent = 0): Promise<LogRead | null> {
  return withLog(
    JSON.stringify(document, null, indent),
    async (root, file) => {
      const { dialect } = loadDialect('tern.yaml', draftDialect(await readSample(root, file)).yaml);
      return dialect === null ? null : await readDialectLog(root, file, dialect, { zone: 'utc' });
    },
    'night.json',
  );
}

/** When the events are that a draft of a document reads in it. */
async function readTimes(document: unknown): Promise<number[]> {
  return ((await readLog(document))?.events ?? []).map(({ atMs }) => atMs);
}

describe('a JSON document whose tables name their columns once', () => {
  it.each<[string, unknown]>([
    ['columns and rows', { columns: COLUMNS, rows: ROWS }],
    ['fields that are objects', { site: 'x', fields: COLUMNS.map((name) => ({ name, unit: null })), data: ROWS }],
    ['a first row of names', [COLUMNS, ...ROWS]],
    ['a table further in', { night: '2026-09-16', story: { heads: COLUMNS, cells: ROWS } }],
    ['a list for each column', Object.fromEntries(COLUMNS.map((name, i) => [name, ROWS.map((row) => row[i])]))],
  ])('is read by %s', async (_, document) => {
    expect(await readTimes(document)).toEqual(ROWS.map(([when = '']) => Date.parse(when)));
  });

  it.each<[string, (what: readonly string[]) => unknown]>([
    ['its place in a list', (acts) => ({ acts, columns: COLUMNS.with(2, 'act'), rows: numbered(ROWS, acts, 0) })],
    ['its number in a list', (steps) => ({ steps, columns: COLUMNS.with(2, 'step'), rows: numbered(ROWS, steps, 1) })],
    ['a list called otherwise', (acts) => ({ acts, columns: COLUMNS.with(2, 'k'), rows: numbered(ROWS, acts, 0) })],
    [
      'the names of numbers, in plain records',
      (names) => ({
        kinds: Object.fromEntries(names.map((name, i) => [i + 11, name])),
        log: numbered(ROWS, names, 11).map(([when, unit, kind]) => ({ when, unit, kind })),
      }),
    ],
  ])('says what happened by %s', async (_, document) => {
    const whole = document(['exposure begins', 'exposure ends', 'dither begins', 'dither ends']);
    const events = (await readLog(whole))?.events ?? [];
    expect(events.map(({ event }) => event)).toEqual(
      ROWS.map(([, , what = '']) => what.replace(' ', '-').slice(0, -1)),
    );
  });

  it('tells by their names what several tables are about, and what an exposure that was cut short came to', async () => {
    const begins = ROWS.filter(([, , what]) => what === 'exposure begins').map(([when = '']) => Date.parse(when));
    const julian = (ms: number): number => Number((ms / 86_400_000 + 2_440_587.5).toFixed(7));
    const result = (i: number): string => (i % 9 === 8 ? 'aborted' : i % 10 === 7 ? 'poor' : 'good');
    const document = {
      plates: {
        names: ['jd_begin', 'asked_s', 'got_s', 'file', 'result'],
        rows: begins.map((ms, i) =>
          i % 9 === 8
            ? [julian(ms), 300, 43, null, result(i)]
            : [julian(ms), 300, 300, `m33_${100 + i}.fits`, result(i)],
        ),
      },
      dithers: {
        names: ['jd_from', 'jd_to', 'note'],
        rows: begins.map((ms) => [julian(ms + 303_000), julian(ms + 309_000), 'fine']),
      },
    };
    const ends = begins.map((ms, i) => ms + (i % 9 === 8 ? 43_000 : 300_000));
    const dithers = begins.flatMap((ms) => [ms + 303_000, ms + 309_000]);
    const found = (await readTimes(document)).map((ms) => Math.round(ms / 1000) * 1000);
    expect([...new Set(found)].sort()).toEqual([...begins, ...ends, ...dithers].sort());
  });

  // The least and the most that there may be: one line, and some twenty thousand.
  it.each(
    inFull(
      [3, 30].flatMap((times) => [0, 2].map((indent) => [times, indent] as const)),
      [
        [3, 0],
        [30, 2],
      ],
    ),
  )('reads a list beside a table of %i times as many samples, indented by %i', async (times, indent) => {
    const story = ROWS.map(([when = '', unit, what]) => ({ when: Date.parse(when) / 1000, unit, what }));
    const rows = Array.from({ length: times * story.length }, (_, i) => [
      (story[0]?.when ?? NaN) + 5 * i,
      Number((Math.sin(i) / 2).toFixed(2)),
      Number((Math.cos(3 * i) / 2).toFixed(2)),
    ]);
    const drift = { columns: ['when', 'ra', 'dec'], unit: 'arcsec', rows };
    const log = await readLog({ story, drift }, indent);
    expect(log?.events.map(({ atMs }) => atMs)).toEqual(ROWS.map(([when = '']) => Date.parse(when)));
    const [at, ra, dec] = [log?.guiding?.atMs, log?.guiding?.raArcsec, log?.guiding?.decArcsec];
    expect([...(at ?? [])].map((ms) => ms / 1000)).toEqual(rows.map(([when]) => when));
    expect([...(ra ?? [])].map((value) => Math.round(100 * value) + 0)).toEqual(
      rows.map((row) => Math.round(100 * (row[1] ?? NaN)) + 0),
    );
    expect([...(dec ?? [])].map((value) => Math.round(100 * value) + 0)).toEqual(
      rows.map((row) => Math.round(100 * (row[2] ?? NaN)) + 0),
    );
  });

  it('keeps rows of numbers alone as lists of samples', () => {
    const guide = {
      columns: ['ms', 'ra', 'dec'],
      rows: [
        [0, 0.1, -0.2],
        [2000, 0.2, 0.1],
      ],
    };
    const lines = documentLines(new Set(['at'])).linesOf(
      JSON.stringify({ steps: [{ at: '2026-09-16T20:00:00Z', guide }] }),
    );
    expect(lines?.join()).toContain('"rows.1":"0.1"');
  });

  it('takes a list of lists of words for no table', () => {
    const lists = {
      notes: [
        ['red', 'green'],
        ['dew', 'wind'],
        ['owl', 'fox'],
      ],
      at: '2026-09-16T20:00:00Z',
    };
    const lines = documentLines(new Set(['at'])).linesOf(JSON.stringify([lists]));
    expect(lines?.join()).not.toContain('"red":');
  });
});
