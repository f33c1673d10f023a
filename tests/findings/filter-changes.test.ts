import { describe, expect, it } from 'vitest';
import { ditherWait } from '../../src/findings/dither-wait.js';
import { filterChangesOften } from '../../src/findings/filter-changes.js';
import { replayNight } from '../../src/replay/index.js';
import { act, ask, found, HERON, lights, minutes, nightOf } from './support.js';

const CHANGE = 30;

/** 200 subs of 90 s on a lone train; a change of filter of 30 s before each that `changes` says so of. */
const night = (changes: (i: number) => boolean) => {
  const count = 200;
  const starts: number[] = [];
  let at = 0;
  for (let i = 0; i < count; i++) {
    at += changes(i) ? CHANGE : 0;
    starts.push(at);
    at += 92;
  }
  return nightOf({
    frames: starts.flatMap((from) => lights('heron', { from, seconds: 90, count: 1 })),
    activities: starts.flatMap((from, i) =>
      changes(i) ? [act('filter', from - CHANGE, from, { train: 'heron' })] : [],
    ),
    trains: [HERON],
  });
};

describe('a filter that is changed often', () => {
  it('is found with what its changes took, and what rows of a quarter of an hour would have won', () => {
    const [finding] = found(
      filterChangesOften,
      night((i) => i > 0),
    );
    expect(finding).toMatchObject({ title: 'heron changed its filter 199 times', confidence: 'high' });
    expect(minutes(finding?.costMs)).toBeCloseTo((199 * CHANGE) / 60, 6);
    // 900 s hold ten subs of 90 s: of 199 changes 20 are left. What is saved goes to subs of 90 s in 92 s.
    expect(finding?.advice).toContain('Take 10 frames per filter on heron before changing it');
    const savedMin = (179 * CHANGE) / 60;
    expect(minutes(finding?.winMs)).toBeGreaterThan(0.85 * savedMin);
    expect(minutes(finding?.winMs)).toBeLessThanOrEqual((savedMin * 90) / 92 + 1);
  });

  it('is not found where filters come in rows, nor where a wheel is quick', () => {
    expect(
      found(
        filterChangesOften,
        night((i) => i > 0 && i % 20 === 0),
      ),
    ).toEqual([]);
    expect(
      found(
        filterChangesOften,
        night((i) => i > 0 && i % 40 === 1),
      ),
    ).toEqual([]);
    expect(ask(filterChangesOften, nightOf({ frames: [] }))).toEqual({ notAssessed: 'lights' });
  });
});

describe('two wheels that turn after every frame', () => {
  it('are one finding, which wins what both in rows win: one alone would wait for the other', () => {
    // 20 blocks of three subs of 90 s, each behind a change of 30 s, with 3 s of readout and 14 s of dither and settling.
    const block = 3 * (CHANGE + 93);
    const cycle = block + 14;
    const names = ['R', 'G', 'B'];
    const frames = ['heron', 'wren'].flatMap((train) =>
      Array.from({ length: 60 }, (_, i) =>
        lights(train, {
          from: Math.floor(i / 3) * cycle + (i % 3) * (CHANGE + 93) + CHANGE,
          seconds: 90,
          count: 1,
          filter: names[i % 3] ?? 'R',
        }),
      ).flat(),
    );
    const activities = Array.from({ length: 20 }, (_, b) => {
      const ready = b * cycle + block;
      return [
        act('dither-move', ready, ready + 4, { causedBy: 'heron' }),
        act('settling', ready + 4, ready + 14, { causedBy: 'heron' }),
        ...['heron', 'wren'].flatMap((train) =>
          [0, 1, 2].map((i) =>
            act('filter', b * cycle + i * (CHANGE + 93), b * cycle + i * (CHANGE + 93) + CHANGE, { train }),
          ),
        ),
      ];
    }).flat();
    const plain = nightOf({ frames, activities });
    const [finding, ...rest] = found(filterChangesOften, { ...plain, replay: replayNight(plain) });
    expect(rest).toEqual([]);
    expect(finding?.title).toBe('heron and wren changed their filters 60 and 60 times');
    expect(finding?.advice).toMatch(/^Take 12 frames per filter on heron and 12 frames per filter on wren/);
    // Four blocks in a row then take 12 · 93 + 30 + 4 · 14 = 1202 s: 76 frames a train in the time of 60.
    const wonMin = (2 * ((20 * cycle) / 1202) * 12 * 90 - 2 * 60 * 90) / 60;
    expect(Math.abs(minutes(finding?.winMs) / wonMin - 1)).toBeLessThan(0.1);
  });
});

describe('waits at dithers for a train that changes its filter meanwhile', () => {
  it('are laid to the filter, and not to subs that are equal', () => {
    // Eight subs of 90 s on both; heron turns its wheel before each, wren stands ready four minutes before each dither.
    const cycles = 12;
    const cycleS = 8 * (92 + CHANGE) + 20;
    const from = (cycle: number, i: number): number => cycle * cycleS + CHANGE + i * (92 + CHANGE);
    const eight = Array.from({ length: 8 }, (_, i) => i);
    const all = Array.from({ length: cycles }, (_, cycle) => cycle);
    const frames = all.flatMap((cycle) => [
      ...eight.flatMap((i) => lights('heron', { from: from(cycle, i), seconds: 90, count: 1 })),
      ...lights('wren', { from: cycle * cycleS, seconds: 90, count: 8, pause: 2 }),
    ]);
    const moves = all.map((cycle) => (cycle + 1) * cycleS - 20);
    const activities = [
      ...all.flatMap((cycle) =>
        eight.map((i) => act('filter', from(cycle, i) - CHANGE, from(cycle, i), { train: 'heron' })),
      ),
      ...moves.flatMap((at) => [act('dither-move', at, at + 4), act('settling', at + 4, at + 18)]),
    ];
    const shared = nightOf({ frames, activities });
    const [wait] = found(ditherWait, shared);
    expect(wait?.title).toMatch(/^wren waited/);
    expect(wait?.advice).toMatch(/^Take more frames through each filter on heron before changing it/);
    const [finding] = found(filterChangesOften, shared);
    expect(finding?.evidence.join()).toContain('other trains waited at dithers');
    expect(finding?.winMs).toBeLessThanOrEqual(finding?.costMs ?? NaN);
  });
});
