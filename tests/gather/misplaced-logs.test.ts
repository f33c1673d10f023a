import { describe, expect, it } from 'vitest';
import type { TrainFrame } from '../../src/gather/assign-trains.js';
import { underTheirTrains } from '../../src/gather/misplaced-logs.js';
import type { SessionLogs } from '../../src/gather/session.js';
import type { TellingEvent } from '../../src/model/index.js';

const frame = (train: string, file: string): TrainFrame => ({
  file,
  train,
  sizeBytes: 5760,
  headerHash: file,
  kind: 'light',
});

const FRAMES = ['heron', 'wren'].flatMap((train) =>
  Array.from({ length: 6 }, (_, i) => frame(train, `frames/${train}/${train}_${i}.fits.gz`)),
);

/** A log under a train that names files and begins a dither. */
function logOf(file: string, train: string, names: readonly string[]): SessionLogs {
  const source = { file };
  const saved = names.map(
    (name, i): TellingEvent => ({ atMs: 1000 * i, event: 'frame-saved', file: name, train, source }),
  );
  return {
    events: [...saved, { atMs: 9000, event: 'dither-begin', train, source }],
    lineTimes: [{ file, train, atMs: [0, 9000] }],
    guiding: null,
    inputs: [{ file, role: 'event-log', train, sizeBytes: 1 }],
    warnings: [],
  };
}

const trainsOf = ({ events, lineTimes, inputs }: SessionLogs): unknown[] => [
  ...new Set([...events, ...lineTimes, ...inputs].map(({ train }) => train)),
];

describe('a log that the rig file names under a train', () => {
  it('is another’s whose frames it names, whatever folder and case it names them by, and none of its own', () => {
    const names = [0, 1, 2].map((i) => `D:\\Night\\WREN_${i}.FITS`);
    const read = underTheirTrains(logOf('logs/heron.jsonl', 'heron', names), FRAMES);
    expect(trainsOf(read)).toEqual(['wren']);
    expect(read.warnings).toMatchObject([
      { code: 'log-of-other-train', source: { file: 'logs/heron.jsonl' }, count: 3 },
    ]);
    expect(read.warnings[0]?.message).toContain('names 3 frames of wren and none of heron');
  });

  it.each([
    ['it names a frame of its own', ['heron_0.fits', 'wren_0.fits', 'wren_1.fits', 'wren_2.fits']],
    ['it names too few of the other’s', ['wren_0.fits', 'wren_1.fits']],
    [
      'most files that it names are not here',
      ['wren_0', 'wren_1', 'wren_2', 'a', 'b', 'c', 'd'].map((n) => `${n}.fits`),
    ],
    ['it names none', []],
  ])('stays its own where %s', (_, names) => {
    const logs = logOf('logs/heron.jsonl', 'heron', names);
    expect(underTheirTrains(logs, FRAMES)).toBe(logs);
  });

  it('stays its own where both trains name their files alike', () => {
    const alike = ['heron', 'wren'].flatMap((train) => [0, 1, 2, 3].map((i) => frame(train, `${train}/L_${i}.fits`)));
    const logs = logOf('logs/heron.jsonl', 'heron', ['L_0.fits', 'L_1.fits', 'L_2.fits']);
    expect(underTheirTrains(logs, alike)).toBe(logs);
  });
});
