import { describe, expect, it } from 'vitest';
import { lineTimesOf, type LineTimes, type TellingEvent } from '../../../src/model/index.js';
import { jumpInLines, oddLengths } from '../../../src/reconstruct/clocks/jump.js';
import type { LogExposure } from '../../../src/reconstruct/log-exposures.js';
import { compareClocks } from '../../../src/reconstruct/index.js';
import { clocksWith } from '../../support/run-clocks.js';

const linesAt = (...atMs: readonly number[]): LineTimes[] => [{ file: 'wren.jsonl', train: 'wren', atMs }];

describe('lines of a log that go back in time', () => {
  it('tell of a clock set back, by at least so much', () => {
    expect(jumpInLines(linesAt(0, 60_000, 90_000, 30_000, 50_000))).toEqual({
      atMs: 90_000,
      byMs: -60_000,
      isOwn: true,
    });
  });

  it('tell of the whole hour that a clock goes back by at the end of summer time, less the time between them', () => {
    const [lastMs, hourMs] = [7_000_000, 3_600_000];
    const back = (byMs: number) => jumpInLines(linesAt(0, lastMs, lastMs - byMs, lastMs - byMs + 2000))?.byMs;
    expect(back(hourMs - 300_000)).toBe(-hourMs);
    expect(back(hourMs)).toBe(-hourMs);
    expect(back(hourMs - 1_200_000)).toBe(-2_400_000);
    expect(back(hourMs + 60_000)).toBe(-3_660_000);
  });

  it('are a program’s disorder where they come back at once, or by little', () => {
    expect(jumpInLines(linesAt(0, 60_000, 30_000, 61_000))).toBeNull();
    expect(jumpInLines(linesAt(0, 60_000, 56_000, 57_000))).toBeNull();
  });
});

describe('an exposure of odd length by its log', () => {
  const exposure = (beginMs: number, lengthMs: number): LogExposure => ({
    beginMs,
    endMs: beginMs + lengthMs,
    endKnown: true,
    askedMs: 300_000,
    aborted: false,
    sources: [],
  });
  const night = [300_100, 300_050, 300_150, 262_700, 300_100, 300_080].map((ms, i) => exposure(i * 310_000, ms));

  it('proves a jump where its file says that it was exposed in full', () => {
    expect(oddLengths(night, () => 300_000)).toEqual([
      { atMs: 3 * 310_000 + 262_700, byMs: -37_390, isProven: true, isFull: true },
    ]);
  });

  it('proves none where it may have been cut short, or a program have been slow', () => {
    expect(oddLengths(night, () => undefined)).toMatchObject([{ isProven: false }]);
    const long = [...night.slice(0, 3), exposure(930_000, 340_000), ...night.slice(4)];
    expect(oddLengths(long, () => 300_000)).toMatchObject([{ isProven: false }]);
  });
});

describe('a clock that is set while the night runs', () => {
  it.each([
    [1, 'wren', 5000, 0.3],
    [2, 'wren', -12_000, 0.7],
    [10, 'wren', 120_000, 0.5],
    [10, 'heron', 120_000, 0.5],
  ])('is not known: night %i, %s %i ms ahead', (seed, train, aheadMs, share) => {
    const jumps = clocksWith(seed, train, (at) => (at < share ? aheadMs : 0)).filter((c) => c.jump !== undefined);
    expect(jumps.length).toBeGreaterThan(0);
    expect(jumps.every((c) => !c.isKnown && !c.corrected)).toBe(true);
    // A jump of the reference shows as one of the companion the other way.
    const sizes = jumps.flatMap((c) => (c.jump ? [Math.abs(c.jump.byMs)] : []));
    expect(sizes.some((ms) => Math.abs(ms - Math.abs(aheadMs)) <= 1500)).toBe(true);
  });

  it('by an hour is corrected, where without that one offset holds all night', () => {
    const notes = clocksWith(11, 'wren', (at) => (at < 0.3 ? 3_600_000 : 0));
    expect(notes.filter((c) => c.jump !== undefined)).toEqual([]);
    expect(notes.filter((c) => c.step !== undefined).map(({ train, step }) => [train, step?.byMs])).toEqual([
      ['wren', -3_600_000],
      ['wren', -3_600_000],
    ]);
  });

  it('is not seen where a companion starts again and no longer waits for dithers', () => {
    const say = (train: string, atMs: number, event: TellingEvent['event'], line: number): TellingEvent =>
      ({
        event,
        atMs: Math.round(atMs),
        train,
        source: { file: `${train}.jsonl`, line },
        ...(event === 'exposure-begin' ? { seconds: 300 } : {}),
      }) as TellingEvent;
    const SUB_MS = 300_000;
    for (const subMs of [SUB_MS, 240_000, 180_000]) {
      const events: TellingEvent[] = [];
      let [heronMs, wrenMs, line] = [0, 60_000, 0];
      const expose = (train: string, fromMs: number, ms: number): number => {
        events.push(say(train, fromMs, 'exposure-begin', ++line), say(train, fromMs + ms, 'exposure-end', ++line));
        return fromMs + ms + 2600 + ((line * 37) % 300);
      };
      const isBefore = (): boolean => wrenMs < 9_000_000;
      for (let dither = 0; dither < 24; dither++) {
        for (let sub = 0; sub < 3; sub++) heronMs = expose('heron', heronMs, SUB_MS);
        const keeps = isBefore();
        while (keeps ? wrenMs + subMs <= heronMs + 200_000 : wrenMs < heronMs) {
          wrenMs = expose('wren', wrenMs, subMs);
          if (keeps && !isBefore()) wrenMs += 240_000;
        }
        const moveMs = keeps ? Math.max(heronMs, wrenMs) : heronMs;
        for (const [event, afterMs] of [
          ['dither-begin', 0],
          ['settling-begin', 2000],
          ['settling-end', 14_000 + ((dither * 977) % 3000)],
        ] as const)
          events.push(say('heron', moveMs + afterMs, event, ++line));
        heronMs = moveMs + 14_500 + ((dither * 977) % 3000);
        if (keeps && isBefore()) wrenMs = heronMs + 300;
      }
      const notes = compareClocks({
        trains: ['heron', 'wren'],
        headers: [],
        events,
        lineTimes: lineTimesOf(events),
        byHandMs: new Map(),
      }).notes;
      expect(notes.filter((c) => c.jump !== undefined)).toEqual([]);
      expect(notes.find((c) => c.train === 'wren')).toMatchObject({ aheadMs: 0, isKnown: true });
    }
  });

  it('is not seen where none was set', () => {
    for (const seed of [1, 2, 3, 4, 6, 8, 9, 10])
      expect(clocksWith(seed, 'wren', () => 0).filter((c) => c.jump !== undefined)).toEqual([]);
  });
});

describe('a night of true clocks on which both trains refocus by the hour', () => {
  /** Subs of five minutes in step, a dither every third, and three minutes of refocus whenever half an hour is over. */
  function night(hours: number): TellingEvent[] {
    const events: TellingEvent[] = [];
    const say = (train: string, atMs: number, event: TellingEvent['event'], more = {}): number =>
      events.push({
        event,
        atMs: Math.round(atMs),
        train,
        source: { file: `${train}.jsonl`, line: events.length + 1 },
        ...more,
      } as TellingEvent);
    const sub = (train: string, atMs: number, readoutMs: number): number => {
      say(train, atMs, 'exposure-begin', { seconds: 300 });
      say(train, atMs + 300_000, 'exposure-end');
      return atMs + 300_000 + readoutMs + 300;
    };
    const refocus = (train: string, atMs: number): number => {
      say(train, atMs, 'focus-begin');
      say(train, atMs + 180_000, 'focus-end');
      return atMs + 180_300;
    };
    let [pilotMs, ownMs] = [Date.UTC(2026, 10, 10, 18), Date.UTC(2026, 10, 10, 18) + 2000];
    const untilMs = pilotMs + hours * 3_600_000;
    let focusedMs = pilotMs;
    for (let dither = 0; pilotMs < untilMs; dither++) {
      for (let i = 0; i < 3; i++) {
        if (pilotMs - focusedMs >= 1_800_000) {
          pilotMs = refocus('heron', pilotMs);
          ownMs = refocus('wren', ownMs);
          focusedMs = pilotMs;
        }
        pilotMs = sub('heron', pilotMs, 2000);
        ownMs = sub('wren', ownMs, 3000);
      }
      say('heron', pilotMs, 'dither-ready');
      say('wren', ownMs, 'dither-ready');
      const moveMs = Math.max(pilotMs, ownMs) + 200;
      say('heron', moveMs, 'dither-begin');
      say('heron', moveMs + 2000, 'dither-end');
      say('heron', moveMs + 2000, 'settling-begin');
      const calmMs = moveMs + 12_000 + 500 * Math.sin(dither);
      say('heron', calmMs, 'settling-end');
      [pilotMs, ownMs] = [calmMs + 500, calmMs + 1200];
    }
    return events.sort((a, b) => a.atMs - b.atMs);
  }

  it('is not said to have had a clock set: a train that refocuses once the mount is calm has gone on at once', () => {
    const events = night(10.5);
    const { notes } = compareClocks({
      trains: ['heron', 'wren'],
      headers: [],
      events,
      lineTimes: lineTimesOf(events),
      byHandMs: new Map(),
    });
    expect(notes.flatMap(({ jump }) => jump ?? [])).toEqual([]);
    for (const { aheadMs, isKnown } of notes.filter(({ train }) => train === 'wren')) {
      expect(isKnown).toBe(true);
      expect(Math.abs(aheadMs ?? Infinity)).toBeLessThan(2000);
    }
  });
});

describe('logs whose times are whole seconds', () => {
  /** A sub of ten minutes on each train between dithers; now and then the companion takes two. */
  function night(seed: number): TellingEvent[] {
    const events: TellingEvent[] = [];
    let state = seed;
    const random = (from: number, to: number): number => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return from + ((to - from) * state) / 2 ** 32;
    };
    const say = (train: string, atMs: number, event: TellingEvent['event'], more = {}): number =>
      events.push({
        event,
        atMs: Math.floor(atMs / 1000) * 1000,
        train,
        source: { file: `${train}.jsonl`, line: events.length + 1 },
        ...more,
      } as TellingEvent);
    const sub = (train: string, atMs: number): number => {
      say(train, atMs, 'exposure-begin', { seconds: 600 });
      say(train, atMs + 600_000, 'exposure-end');
      return atMs + 600_000 + random(1600, 2600);
    };
    let [pilotMs, ownMs] = [Date.UTC(2026, 9, 14, 22), Date.UTC(2026, 9, 14, 22) + 2000];
    for (let dither = 0; dither < 35; dither++) {
      pilotMs = sub('heron', pilotMs);
      ownMs = sub('wren', ownMs);
      if (dither % 9 === 4) ownMs = sub('wren', ownMs);
      say('heron', pilotMs, 'dither-ready');
      say('wren', ownMs, 'dither-ready');
      const moveMs = Math.max(pilotMs, ownMs) + random(300, 1000);
      say('heron', moveMs, 'dither-begin');
      const settlingMs = moveMs + random(1500, 3000);
      say('heron', settlingMs, 'settling-begin');
      const calmMs = settlingMs + random(8000, 14_000);
      say('heron', calmMs, 'settling-end');
      [pilotMs, ownMs] = [calmMs + random(300, 1200), calmMs + random(1100, 3700)];
    }
    return events.sort((a, b) => a.atMs - b.atMs);
  }

  it('show no clock set by a second: rounding moves them by as much', () => {
    for (const seed of [7, 11]) {
      const events = night(seed);
      const { notes } = compareClocks({
        trains: ['heron', 'wren'],
        headers: [],
        events,
        lineTimes: lineTimesOf(events),
        byHandMs: new Map(),
      });
      expect(notes.flatMap(({ jump }) => jump ?? [])).toEqual([]);
    }
  });
});
