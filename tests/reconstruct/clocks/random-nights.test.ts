import { describe, expect, it } from 'vitest';
import { CLOCK_COVERAGE, isLateOrAhead, LATE_START_MS, type Timeline } from '../../../src/model/index.js';
import { seeded } from '../../support/generator/random.js';
import { isTelling, rebuild, simulated, type WrongClocks } from '../../support/random-night.js';

/** More nights than the suite runs: CLOCK_NIGHTS=400 npx vitest run tests/reconstruct/clocks. */
const NIGHTS = Number(process.env.CLOCK_NIGHTS ?? 5);
const HOUR_MS = 3_600_000;

/** Which clocks of a train are off: the usual case is one computer that writes both. */
const OFF = ['both', 'headers', 'log'] as const;

interface Tally {
  right: number;
  reported: number;
  /** Some seconds that a program which begins late would explain as well, and said so. */
  open: number;
  /** Wrong, and nothing on the first screen says so. */
  silent: string[];
}

/** What is determined is brought to this of the truth, ms. */
const NEAR_MS = 1000;

/** Begins of one train, relative to the pilot's dithers or first frame, so that one-sided corrections compare. */
function isAsTrue(found: Timeline, truth: Timeline): boolean {
  const begins = (t: Timeline) => t.frames.map((f) => [f.train, f.exposure.startMs] as const);
  const sorted = (t: Timeline) => begins(t).sort((a, b) => (a[0] < b[0] ? -1 : a[0] > b[0] ? 1 : a[1] - b[1]));
  const [a, b] = [sorted(found), sorted(truth)];
  // Without logs the moves are inferred from gaps, whose lengths near a limit differ by a millisecond.
  const moves = (t: Timeline) =>
    t.headersOnly ? [] : t.activities.filter((x) => x.kind === 'dither-move').map((x) => x.span.startMs);
  const [m, n] = [moves(found), moves(truth)];
  const close = (x: number | undefined, y: number | undefined, shiftMs: number, limitMs: number) =>
    Math.abs((x ?? NaN) - (y ?? NaN) - shiftMs) <= limitMs;
  // What is said to be known no better than to some seconds may be off by them: a program that begins late.
  const limitMs = (train: string): number =>
    found.clocks
      .filter((c) => c.train === train && !c.corrected)
      .reduce((most, c) => Math.max(most, CLOCK_COVERAGE * c.uncertaintyMs), NEAR_MS);
  // Where which clock is right is not known and said, all times may be off by the same.
  const shiftMs = found.clocks.some((c) => !c.isAbsolute) ? (a[0]?.[1] ?? 0) - (b[0]?.[1] ?? 0) : 0;
  return (
    a.length === b.length &&
    a.every(([train, startMs], i) => close(startMs, b[i]?.[1], shiftMs, limitMs(train))) &&
    m.length === n.length &&
    m.every((startMs, i) => close(startMs, n[i], shiftMs, NEAR_MS))
  );
}

function anyOffset(random: ReturnType<typeof seeded>): number {
  const kind = random.whole(0, 4);
  if (kind === 4) return random.whole(-6000, 6000);
  if (kind === 0) return random.whole(-4, 4) * 0.5 * HOUR_MS;
  if (kind === 1) return random.whole(-90_000, 90_000);
  return random.whole(-2 * HOUR_MS, 2 * HOUR_MS);
}

function run(trains: 2 | 3, logs: boolean): Tally {
  const tally: Tally = { right: 0, reported: 0, open: 0, silent: [] };
  const ids = ['heron', 'wren', 'owl'].slice(0, trains);
  for (let seed = 1; seed <= NIGHTS; seed++) {
    const simulation = simulated(seed, trains);
    const random = seeded(seed * 31 + trains);
    const train = ids[random.whole(0, trains - 1)] ?? 'wren';
    if (!ids.slice(1).every((id) => isTelling(simulation, id))) continue;
    const off = logs ? OFF[random.whole(0, 2)] : 'headers';
    const aheadMs = anyOffset(random);
    const clocks: WrongClocks = {
      ...(off === 'log' ? {} : { [`${train}/headers`]: aheadMs }),
      ...(off === 'headers' ? {} : { [`${train}/log`]: aheadMs }),
    };
    const found = rebuild(simulation, ids, clocks, logs);
    if (isAsTrue(found, rebuild(simulation, ids, {}, logs))) tally.right++;
    else if (Math.abs(aheadMs) <= LATE_START_MS && found.clocks.some(isLateOrAhead)) tally.open++;
    else if (found.clocks.some((c) => !c.isKnown)) tally.reported++;
    else
      tally.silent.push(`night ${seed}: ${off} of ${train} ${aheadMs / 1000} s ahead: ${JSON.stringify(found.clocks)}`);
  }
  return tally;
}

describe('any offset of any clock', () => {
  it.each([
    ['two trains', 2, true],
    ['three trains', 3, true],
    ['two trains by headers alone', 2, false],
    ['three trains by headers alone', 3, false],
  ] as const)(
    'is corrected to a second, lies within what is said to be uncertain, or is said to be unknown: %s',
    (what, trains, logs) => {
      const { right, reported, open, silent } = run(trains, logs);
      if (process.env.CLOCK_NIGHTS) console.log(what, { right, reported, open, silent: silent.length });
      expect(silent).toEqual([]);
      expect(reported).toBeLessThanOrEqual(0.2 * (right + reported));
      expect(open).toBeLessThanOrEqual(0.4 * (right + reported + open));
    },
  );
});
