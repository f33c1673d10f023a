/** A companion whose program begins some seconds after the mount has settled: that is no clock that is ahead. */
import { describe, expect, it } from 'vitest';
import {
  isClockApart,
  isLateOrAhead,
  KEEPS_TO_NONE,
  lineTimesOf,
  type HeaderFrame,
  type TellingEvent,
} from '../../../src/model/index.js';
import { compareClocks } from '../../../src/reconstruct/index.js';
import { clockWarnings } from '../../../src/reconstruct/clocks/warnings.js';
import { seeded } from '../../support/generator/random.js';
import { inFull } from '../../support/runs.js';

interface Habits {
  readonly pilotSeconds: number;
  readonly seconds: number;
  /** How often of all dithers the mount waits for the companion, 0…1. */
  readonly holds: number;
  /** By how much its readouts differ, ms. */
  readonly readoutMs: number;
  readonly lateMs: number;
  readonly aheadMs: number;
  /** Dithers; 40 where absent. */
  readonly cycles?: number;
}

const READOUT_MS = 3000;

/** Six dithers, for which a companion with subs of twice the pilot's is waited now and then. */
const FEW: Habits = {
  pilotSeconds: 300,
  seconds: 580,
  holds: 0.5,
  readoutMs: 300,
  lateMs: 0,
  aheadMs: 0,
  cycles: 6,
};

/** Forty dithers by the pilot's log; of the companion the headers alone. Two frames of the pilot between dithers. */
function night(seed: number, habits: Habits) {
  const random = seeded(seed);
  const events: TellingEvent[] = [];
  const headers: (HeaderFrame & { readonly train: string })[] = [];
  const log = (atMs: number, event: 'dither-begin' | 'dither-end' | 'settling-begin' | 'settling-end'): void =>
    void events.push({ atMs, event, train: 'heron', source: { file: 'heron.jsonl', line: events.length + 1 } });
  /** A frame; when it has been read out. */
  const expose = (train: string, beginMs: number, seconds: number, aheadMs = 0): number => {
    const startMs = beginMs + aheadMs;
    const file = `${train}/${headers.length}.fits`;
    const exposure = { startMs, endMs: startMs + seconds * 1000 };
    headers.push({ train, file, sizeBytes: 1, headerHash: file, kind: 'light', exposure, exposureSeconds: seconds });
    return beginMs + seconds * 1000 + READOUT_MS;
  };
  let settledMs = Date.UTC(2026, 9, 14, 20);
  for (let cycle = 0; cycle < (habits.cycles ?? 40); cycle++) {
    let pilotMs = settledMs;
    for (let i = 0; i < 2; i++) pilotMs = expose('heron', pilotMs, habits.pilotSeconds) + random.whole(0, 300);
    let ownMs = settledMs + habits.lateMs + random.whole(0, 200);
    const fitting = Math.floor((2 * (habits.pilotSeconds + 3)) / (habits.seconds + 3));
    const frames = Math.max(1, fitting + (random.next() < habits.holds ? 1 : 0));
    for (let i = 0; i < frames; i++)
      ownMs = expose('wren', ownMs, habits.seconds, habits.aheadMs) + random.whole(0, habits.readoutMs);
    const moveMs = Math.max(pilotMs, ownMs) + random.whole(20, 80);
    const stillMs = moveMs + random.whole(2000, 4000);
    settledMs = stillMs + random.whole(8000, 14_000);
    log(moveMs, 'dither-begin');
    log(stillMs, 'dither-end');
    log(stillMs, 'settling-begin');
    log(settledMs, 'settling-end');
  }
  return { headers, events };
}

function inputOf(headers: ReturnType<typeof night>['headers'], events: readonly TellingEvent[]) {
  return { trains: ['heron', 'wren'], headers, events, lineTimes: lineTimesOf(events), byHandMs: new Map() };
}

describe('a companion that begins late after each dither, known by its headers alone', () => {
  const nights = [
    [300, 240],
    [180, 150],
    [300, 60],
  ].flatMap(([pilotSeconds = 0, seconds = 0]) =>
    [0, 0.5, 1].flatMap((holds) =>
      [300, 3000].map((readoutMs): Habits => ({ pilotSeconds, seconds, holds, readoutMs, lateMs: 2000, aheadMs: 0 })),
    ),
  );
  /** Of two readouts `npm test` takes one, of each length and each share of waits; and not always the same. */
  const tried = [...nights.entries()].filter(([seed]) => inFull(true, (seed + (seed >> 1)) % 2 === 0));

  it.each(['by the pilot’s log', 'by headers alone'])('is not said to have a clock that is ahead, %s', (how) => {
    for (const [seed, habits] of tried) {
      const { headers, events } = night(seed, habits);
      const known = how === 'by headers alone' ? [] : events;
      const { notes } = compareClocks(inputOf(headers, known));
      const said = notes.filter((note) => note.corrected || isClockApart(note));
      expect(said, JSON.stringify(habits)).toEqual([]);
    }
  });

  it('is found to be far ahead where it is, to within what is said of it', () => {
    for (const aheadMs of [47_000, -600_000]) {
      const { headers, events } = night(1, { ...nights[3]!, aheadMs });
      for (const known of [events, []]) {
        const { notes } = compareClocks(inputOf(headers, known));
        const wren = notes.find(({ train }) => train === 'wren');
        expect(wren).toMatchObject({ isKnown: true, corrected: true });
        expect(Math.abs((wren?.aheadMs ?? NaN) - aheadMs)).toBeLessThanOrEqual(3 * (wren?.uncertaintyMs ?? 0));
      }
    }
  });

  it.each([6000, 9600, 20_000])(
    'is true where the mount always moved as soon as it was ready: %i ms late',
    (lateMs) => {
      for (const [seed, cycles] of [12, 40].entries()) {
        const late: Habits = { pilotSeconds: 300, seconds: 290, holds: 1, readoutMs: 300, lateMs, aheadMs: 0, cycles };
        // Two subs of the pilot, then two of the companion that end after them: that one holds every dither.
        const { headers, events } = night(seed + 5, { ...late, seconds: 300 });
        const wren = compareClocks(inputOf(headers, events)).notes.find(({ train }) => train === 'wren');
        expect(wren, `${cycles}`).toMatchObject({ aheadMs: 0, isKnown: true, corrected: false });
        // A clock that is ahead by as much writes that it was ready after the mount had moved.
        const ahead = night(seed + 5, { ...late, seconds: 300, lateMs: 0, aheadMs: lateMs });
        const found = compareClocks(inputOf(ahead.headers, ahead.events)).notes.find(({ train }) => train === 'wren');
        expect(Math.abs((found?.aheadMs ?? NaN) - lateMs)).toBeLessThan(1500);
        expect(found?.corrected).toBe(true);
      }
    },
  );

  it('is put nowhere by seven exposures, but said to be open, with what fits best', () => {
    // By odds of a million the exposures fit a clock that is ahead, for no habit of starting so late is reckoned with.
    const { headers, events } = night(2, { ...FEW, lateMs: 9600 });
    expect(headers.filter(({ train }) => train === 'wren')).toHaveLength(7);
    const [wren] = compareClocks(inputOf(headers, events)).notes;
    expect(wren).toMatchObject({ corrected: false, isKnown: false, second: { aheadMs: 0 } });
    expect(Math.abs((wren?.aheadMs ?? NaN) - 9600)).toBeLessThan(1000);
  });

  it.each([-600_000, 3_600_000])('is brought together by as few where no habit is so long: %i ms', (aheadMs) => {
    const { headers, events } = night(1, { ...FEW, seconds: 290, holds: 1, cycles: 3, aheadMs });
    expect(headers.filter(({ train }) => train === 'wren')).toHaveLength(9);
    const [wren] = compareClocks(inputOf(headers, events)).notes;
    expect(wren).toMatchObject({ corrected: true, isKnown: true });
    expect(Math.abs((wren?.aheadMs ?? NaN) - aheadMs)).toBeLessThan(1000);
  });
});

describe('seconds between two trains of which nothing but headers tells', () => {
  /** One night by headers alone, and what is said of the companion's clock. */
  const said = (habits: Partial<Habits>) => {
    const all: Habits = { pilotSeconds: 300, seconds: 300, holds: 1, readoutMs: 300, lateMs: 0, aheadMs: 0, ...habits };
    const { headers } = night(3, { cycles: 20, ...all });
    return compareClocks(inputOf(headers, [])).notes.find(({ train }) => train === 'wren');
  };

  it.each([8000, 20_000])('are left as written where a program may begin late, and both are said: %i ms', (lateMs) => {
    const wren = said({ lateMs });
    expect(wren).toMatchObject({ isKnown: false, corrected: false, second: { aheadMs: 0 } });
    expect(Math.abs((wren?.aheadMs ?? NaN) - lateMs)).toBeLessThan(1500);
    expect(isLateOrAhead(wren!)).toBe(true);
  });

  it('are a clock where its shutters close while the mount must still have been moving', () => {
    // Both end their subs together: one that is 12 s ahead closes its shutter in the pilot's last seconds of rest.
    const wren = said({ aheadMs: 12_000 });
    expect(wren).toMatchObject({ isKnown: true, corrected: true });
    expect(Math.abs((wren?.aheadMs ?? NaN) - 12_000)).toBeLessThan(1500);
  });

  it('are a clock that is behind where the pilot’s shutters close while the mount must still have been moving', () => {
    const wren = said({ seconds: 290, holds: 0, aheadMs: -12_000 });
    expect(wren).toMatchObject({ isKnown: true, corrected: true });
    // Where the pilot had long closed them, it may be the one that begins late.
    expect(isLateOrAhead(said({ aheadMs: -12_000 })!)).toBe(true);
  });
});

describe('two trains whose programs dither each by itself', () => {
  it.each([5, 6, 7, 8])('are not put hours apart by what fits best: night %i', (seed) => {
    const random = seeded(seed);
    const headers: (HeaderFrame & { readonly train: string })[] = [];
    for (const [train, seconds, every] of [
      ['heron', 240, 5],
      ['wren', 180, 7],
    ] as const) {
      let atMs = Date.UTC(2026, 9, 14, 20) + random.whole(0, 60_000);
      for (let i = 1; i <= 20_000 / seconds; i++) {
        const exposure = { startMs: atMs, endMs: atMs + seconds * 1000 };
        const file = `${train}/${i}.fits`;
        headers.push({
          train,
          file,
          sizeBytes: 1,
          headerHash: file,
          kind: 'light',
          exposure,
          exposureSeconds: seconds,
        });
        atMs = exposure.endMs + READOUT_MS + random.whole(0, 400) + (i % every === 0 ? random.whole(9000, 14_000) : 0);
      }
    }
    const [wren] = compareClocks(inputOf(headers, [])).notes;
    expect(wren).toMatchObject({ by: KEEPS_TO_NONE, aheadMs: 0, isKnown: false, corrected: false });
    expect(clockWarnings([wren!])[0]?.message).toContain('follows none of the dithers');
  });
});

describe('a companion that by headers alone begins later in one part of the night than in the other', () => {
  it('is not said to have had its clock set, for its program may have been restarted', () => {
    const habits: Habits = { pilotSeconds: 300, seconds: 290, holds: 0.5, readoutMs: 300, lateMs: 22_000, aheadMs: 0 };
    const late = night(4, { ...habits, cycles: 16 }).headers;
    const sooner = night(5, { ...habits, lateMs: 7000, cycles: 16 }).headers;
    const laterMs = 4 * 3_600_000;
    const moved = sooner.map((h) => ({
      ...h,
      file: `later/${h.file}`,
      headerHash: `later/${h.file}`,
      exposure: { startMs: (h.exposure?.startMs ?? 0) + laterMs, endMs: (h.exposure?.endMs ?? 0) + laterMs },
    }));
    const [wren] = compareClocks(inputOf([...late, ...moved] as typeof late, [])).notes;
    expect(wren?.jump).toBeUndefined();
    expect(wren).toMatchObject({ isKnown: false, corrected: false });
    expect(clockWarnings([wren!])[0]?.message).toMatch(/either its clock is .* or the program of wren begins/);
  });
});
