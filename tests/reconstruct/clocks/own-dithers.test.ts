/** Two programs that dither each by itself, in cycles that are equal: some offset of their clocks fits by chance. */
import { describe, expect, it } from 'vitest';
import { KEEPS_TO_NONE, lineTimesOf, type HeaderFrame, type TellingEvent } from '../../../src/model/index.js';
import { wandersAgainst } from '../../../src/reconstruct/clocks/own-dithers.js';
import { compareClocks } from '../../../src/reconstruct/index.js';
import { seeded } from '../../support/generator/random.js';
import { some } from '../../support/runs.js';

interface Programs {
  readonly seconds: number;
  /** Frames between two dithers. */
  readonly every: number;
  /** By how much the settling differs from one to the next, ms. */
  readonly settlingMs: number;
  /** How much later than the pilot's the companion's first exposure begins, ms. */
  readonly laterMs: number;
}

/** A night of nine hours, each train by its own headers and its own log. */
function night(seed: number, { seconds, every, settlingMs, laterMs }: Programs) {
  const random = seeded(seed);
  const events: TellingEvent[] = [];
  const headers: (HeaderFrame & { readonly train: string })[] = [];
  const beginMs = Date.UTC(2026, 10, 9, 19);
  for (const train of ['heron', 'wren']) {
    let atMs = beginMs + (train === 'wren' ? laterMs : 0);
    const log = (event: 'exposure-begin' | 'exposure-end' | 'dither-begin' | 'settling-begin' | 'settling-end'): void =>
      void events.push({
        atMs,
        event,
        train,
        seconds,
        source: { file: train, line: events.length + 1 },
      } as TellingEvent);
    for (let n = 1; atMs < beginMs + 9 * 3_600_000; n++) {
      const file = `${train}/${n}.fits`;
      const exposure = { startMs: atMs, endMs: atMs + seconds * 1000 };
      headers.push({ train, file, sizeBytes: 1, headerHash: file, kind: 'light', exposure, exposureSeconds: seconds });
      log('exposure-begin');
      atMs = exposure.endMs;
      log('exposure-end');
      atMs += 2500 + random.whole(0, 300);
      if (n % every !== 0) continue;
      log('dither-begin');
      atMs += 2300;
      log('settling-begin');
      atMs += 8000 + random.whole(0, settlingMs);
      log('settling-end');
    }
  }
  return { headers, events };
}

/** `npm test` takes five: subs of both lengths, all ways of settling, both beginnings. */
const NIGHTS = some(
  [
    [300, 3],
    [180, 4],
  ]
    .flatMap(([seconds = 0, every = 0]) =>
      [60, 1000, 5000].flatMap((settlingMs) =>
        [0.4, 0.7].map(
          (later): Programs => ({
            seconds,
            every,
            settlingMs,
            laterMs: Math.round(later * every * (seconds + 3) * 1000),
          }),
        ),
      ),
    )
    .map((programs, i) => night(i + 1, programs)),
  5,
);

/** What is said of the companion's clocks on all nights; `by` the logs too, or headers alone. */
function saidOfWren(by: 'logs' | 'headers') {
  return NIGHTS.flatMap(({ headers, events }) => {
    const known = by === 'logs' ? events : [];
    const lineTimes = lineTimesOf(known);
    const { notes } = compareClocks({
      trains: ['heron', 'wren'],
      headers,
      events: known,
      lineTimes,
      byHandMs: new Map(),
    });
    return notes.filter(({ train }) => train === 'wren');
  });
}

describe('two programs that dither each by itself', () => {
  it.each(['logs', 'headers'] as const)('are not laid on one another by what fits best, by %s', (by) => {
    const said = saidOfWren(by);
    expect(said.filter((note) => note.corrected).length).toBe(0);
    expect(said.filter((note) => note.by === KEEPS_TO_NONE).length).toBeGreaterThan(said.length / 3);
  });
});

/** Dithers, and a companion that begins so long after each. */
function beginsAfter(waitsMs: readonly number[]) {
  const at = waitsMs.map((waitMs, i) => ({ resumeMs: i * 140_000, beginMs: i * 140_000 + waitMs }));
  return {
    shutters: at.map(({ beginMs }) => {
      const endMs = beginMs + 110_000;
      return { beginMs, endMs, readyMs: endMs, notBeforeMs: endMs };
    }),
    pauses: at.map(({ resumeMs }) => ({
      moveMs: resumeMs - 15_000,
      resumeMs,
      by: 'log' as const,
      resumesBy: 'log' as const,
    })),
    shared: [],
    cadenceMs: 140_000,
    favouredMs: [0],
  };
}

describe('waits after dithers', () => {
  const SEEDS = Array.from({ length: 40 }, (_, seed) => seed + 1);
  /** How many of the nights are said to add up from dither to dither. */
  const wandering = (waitsOf: (random: ReturnType<typeof seeded>) => number[]): number =>
    SEEDS.filter((seed) => wandersAgainst(beginsAfter(waitsOf(seeded(seed))), () => 0)).length;
  const late = (most: number, firstMs: readonly number[], lastMs: readonly number[] = []) =>
    wandering((random) => [...firstMs, ...Array.from({ length: 60 }, () => random.whole(0, most)), ...lastMs]);

  it('start again with each where the first frames, or the last, are late for a reason of their own', () => {
    // By chance one in seventy.
    for (const most of [0, 800, 3000]) {
      expect(late(most, [13_000]), `the first, up to ${most} ms`).toBeLessThan(4);
      expect(late(most, [25_000, 19_000]), `the first two, up to ${most} ms`).toBeLessThan(4);
      expect(late(most, [], [17_000, 16_000, 18_000]), `the last three, up to ${most} ms`).toBeLessThan(4);
    }
  });

  it('add up where no delay is made up for, a late first frame or none', () => {
    const walk = (random: ReturnType<typeof seeded>): number[] => {
      let waitMs = 5000;
      return Array.from({ length: 60 }, () => (waitMs += random.whole(-600, 600)));
    };
    expect(wandering(walk)).toBe(SEEDS.length);
    expect(wandering((random) => [25_000, ...walk(random)])).toBe(SEEDS.length);
  });
});
