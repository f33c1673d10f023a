import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 30);
const at = (ms: number): string => new Date(ms).toISOString().slice(0, 19).replace('T', ' ');

/** Frames of two trains, each with its beginning and its length. */
const FRAMES = [
  ...Array.from({ length: 20 }, (_, i) => ({ train: 'heron', fromMs: T0 + i * 303_000, seconds: 300, filter: 'Ha' })),
  ...Array.from({ length: 32 }, (_, i) => ({
    train: 'wren',
    fromMs: T0 + 900 + i * 184_000,
    seconds: 180,
    filter: 'L',
  })),
]
  .map((frame, i) => ({ ...frame, file: `${frame.train}_${String(i).padStart(4, '0')}.fits` }))
  .sort((a, b) => a.fromMs - b.fromMs);

const inSeconds = (ms: number): number => Math.floor(ms / 1000);

async function expectFrames(lines: readonly string[]): Promise<void> {
  const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const of = (name: string): number[] =>
    events.flatMap(({ event, atMs }) => (event === name ? [inSeconds(atMs)] : [])).sort((a, b) => a - b);
  expect(of('exposure-begin')).toEqual(FRAMES.map(({ fromMs }) => inSeconds(fromMs)));
  const ends = FRAMES.map(({ fromMs, seconds }) => inSeconds(fromMs) + seconds);
  expect(of('exposure-end')).toEqual(ends.sort((a, b) => a - b));
}

describe('records that are exposures, each with its beginning and its length', () => {
  it('are read as JSON', async () => {
    await expectFrames(
      FRAMES.map(({ train, fromMs, seconds, filter, file }) =>
        JSON.stringify({ kamera: train, start: at(fromMs), sekunden: seconds, filter, datei: file }),
      ),
    );
  });

  it('are read as pairs', async () => {
    await expectFrames(
      FRAMES.map(
        ({ train, fromMs, seconds, filter, file }) =>
          `tube=${train} inizio="${at(fromMs)}" posa=${seconds} filtro=${filter} file=${file}`,
      ),
    );
  });
});

it.each([
  ['dura', 'exposición', 'estabilización', 'dither'],
  ['varighet', 'eksponering', 'stabilisering', 'dither'],
])('reads what each thing took by a field called %s', async (name, exposure, settling, dither) => {
  const lines = Array.from({ length: 30 }, (_, i) => [
    { what: exposure, start: at(T0 + i * 220_000), [name]: 180, file: `h_${i}.fits`, filter: 'Ha' },
    { what: dither, start: at(T0 + i * 220_000 + 183_000), [name]: 4 },
    { what: settling, start: at(T0 + i * 220_000 + 187_000), [name]: 14 },
  ]).map((records) => records.map((record) => JSON.stringify(record)));
  const log = lines.flat();
  const { events } = await read(drafted(log).yaml, `${log.join('\n')}\n`, { zone: 'UTC' });
  const seconds = (event: string): number[] =>
    events.filter((one) => one.event === event).map(({ atMs }) => (atMs - T0) / 1000);
  expect(seconds('exposure-end')).toEqual(lines.map((_, i) => i * 220 + 180));
  expect(seconds('settling-begin')).toEqual(lines.map((_, i) => i * 220 + 187));
  expect(seconds('settling-end')).toEqual(lines.map((_, i) => i * 220 + 201));
});
