import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { draftDialect, readSample } from '../../../src/gather/dialects/index.js';
import { some } from '../../support/runs.js';
import { codes, read } from './support/read.js';

/** 14 October 2026, 19:42:10 UTC. */
const T0 = Date.UTC(2026, 9, 14, 19, 42, 10);
const iso = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();

/** Errors with both signs about zero, the same on every run. */
const errorOf = (i: number, k: number): number => Number((Math.sin(12.9898 * (i + 1) + 78.233 * k) * 0.8).toFixed(2));

/** Series keep four bytes of an error. */
const hundredths = (value: number | undefined): number => Math.round((value ?? NaN) * 100) + 0;

/** Stretches of guiding with their samples, and the exposures in them. */
const RUNS = Array.from({ length: 6 }, (_, i) => ({
  begin: i * 2000,
  end: i * 2000 + 1700,
  samples: Array.from({ length: 40 }, (_, k) => ({ t: 2.5 * k, ra: errorOf(i, k), dec: errorOf(k, i) })),
  exposures: Array.from({ length: 5 }, (_, k) => ({ from: i * 2000 + 10 + k * 330, to: i * 2000 + 310 + k * 330 })),
}));
type Run = (typeof RUNS)[number];

/** How a record may hold samples. */
const FORMS: readonly (readonly [string, (run: Run) => Readonly<Record<string, unknown>>])[] = [
  ['rows of seconds', ({ samples }) => ({ guide: samples.map(({ t, ra, dec }) => [t, ra, dec]) })],
  [
    'columns of milliseconds',
    ({ samples }) => ({
      guide: {
        ms: samples.map(({ t }) => t * 1000),
        dra: samples.map(({ ra }) => ra),
        ddec: samples.map(({ dec }) => dec),
      },
    }),
  ],
  ['objects', ({ samples }) => ({ guide: samples })],
  [
    'objects with their own instants',
    ({ begin, samples }) => ({ guide: samples.map(({ t, ra, dec }) => ({ at: iso(begin + t), ra, dec })) }),
  ],
  [
    'rows with epochs',
    ({ begin, samples }) => ({ guide: samples.map(({ t, ra, dec }) => [T0 / 1000 + begin + t, ra, dec]) }),
  ],
  [
    'columns in a steady rhythm',
    ({ samples }) => ({
      guide: { step_s: 2.5, ra: samples.map(({ ra }) => ra), dec: samples.map(({ dec }) => dec) },
    }),
  ],
];

const stateOf = (run: Run, of: (run: Run) => object, i: number) => ({
  target: 'NGC 281',
  begin: iso(run.begin),
  end: iso(run.end),
  exposures: run.exposures.map(({ from, to }, k) => ({
    from: iso(from),
    to: iso(to),
    seconds: 300,
    filter: 'Ha',
    file: `a${i}_${k}.fits`,
  })),
  ...of(run),
});

/** How the log around it may be laid out. */
const LAYOUTS: readonly (readonly [string, (of: (run: Run) => object) => string])[] = [
  ['a document', (of) => JSON.stringify({ runs: RUNS.map((run, i) => stateOf(run, of, i)) }, null, 2)],
  ['a document on one line', (of) => JSON.stringify({ runs: RUNS.map((run, i) => stateOf(run, of, i)) })],
  [
    'records a line each',
    (of) =>
      RUNS.flatMap((run) => [
        { at: iso(run.begin), what: 'guiding', state: 'start' },
        ...run.exposures.flatMap(({ from, to }) => [
          { at: iso(from), what: 'exposure', state: 'start', seconds: 300, filter: 'Ha' },
          { at: iso(to), what: 'exposure', state: 'end' },
        ]),
        { at: iso(run.end), what: 'guiding', state: 'stop' },
        { at: iso(run.end + 1), what: 'guide samples', since: iso(run.begin), ...of(run) },
      ])
        .map((record) => JSON.stringify(record))
        .join('\n'),
  ],
];

const CASES = LAYOUTS.flatMap(([layout, textOf]) =>
  FORMS.map(([form, of]) => [`${layout}: ${form}`, `${textOf(of)}\n`] as const),
);

/** The draft of a file, which a document is looked at as a whole for. */
async function draftOf(text: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-lists-'));
  try {
    writeFileSync(join(folder, 'night.json'), text);
    return draftDialect(await readSample(folder, 'night.json')).yaml;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('guiding samples that records hold as lists', () => {
  it.each(some(CASES, 6))('are found in %s', async (_name, text) => {
    const yaml = await draftOf(text);
    const log = await read(yaml, text, { name: 'night.json', zone: 'UTC' });
    const series = log.guiding;
    expect(
      [...(series?.atMs ?? [])].map((atMs, i) => [
        atMs - T0,
        hundredths(series?.raArcsec[i]),
        hundredths(series?.decArcsec[i]),
      ]),
      yaml,
    ).toEqual(
      RUNS.flatMap(({ begin, samples }) =>
        samples.map(({ t, ra, dec }) => [(begin + t) * 1000, hundredths(ra), hundredths(dec)]),
      ),
    );
    expect(log.events.filter(({ event }) => event === 'exposure-begin')).toHaveLength(30);
  });
});

describe('guiding.list', () => {
  const DIALECT = (list: string): string => `dialect: 1
time: { pattern: "{year}-{month}-{day}T{hour}:{minute}:{second}{offset}" }
records: { as: json, time: at }
constants: { scale: 2 }
guiding: { list: ${list}, ra: x * scale, dec: y * scale }
lines: [{ when: { what: "^guiding$" }, event: guiding-begin }]
`;
  const RECORD = `{"at":"2026-10-14T19:42:10Z","what":"guiding","s":[{"k":1000,"x":0.5,"y":-1},{"k":3000,"x":1,"y":0}]}\n`;

  it('gives samples beside the event of its record', async () => {
    const log = await read(DIALECT('{ in: s, after: k / 1000 }'), RECORD);
    expect([...(log.guiding?.atMs ?? [])]).toEqual([T0 + 1000, T0 + 3000]);
    expect([...(log.guiding?.raArcsec ?? [])]).toEqual([1, 2]);
    expect(log.events.map(({ event }) => event)).toEqual(['guiding-begin']);
  });

  it('leaves out, with a warning, what has no numbers', async () => {
    const log = await read(DIALECT('{ in: s, after: k / 1000 }'), RECORD.replace('"x":1', '"x":"?"'));
    expect([...(log.guiding?.atMs ?? [])]).toEqual([T0 + 1000]);
    expect(codes(log)).toContain('unreadable-sample');
  });

  it.each([
    ['{ in: s }', 'say when the samples were taken'],
    ['{ in: s, time: k, after: k }', 'either a time of its own'],
  ])('%s is refused', async (list, message) => {
    await expect(read(DIALECT(list), RECORD)).rejects.toThrow(message);
  });
});
