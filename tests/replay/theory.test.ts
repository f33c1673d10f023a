/**
 * The replay against closed forms. No published formula is known for two exposure trains that share a mount; each form
 * is derived beside its test. Notation: train A leads, with exposure and turnaround together a; train B follows with b;
 * a dither every n frames of A; c is move and settling.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RULES } from '../account/random-night.js';
import { courseOf, runExactly, START_MS } from './support.js';

const period = fc.integer({ min: 20_000, max: 900_000 });
const every = fc.integer({ min: 1, max: 12 });

describe('one train', () => {
  /**
   * A block of n frames and its dither last n·a + c, in which n·e is exposed. After K whole blocks the night has kept
   * K·n·e, whatever the parts.
   */
  it('keeps n·e of every n·a + c', () => {
    fc.assert(
      fc.property(
        period,
        fc.integer({ min: 0, max: 9000 }),
        fc.integer({ min: 1000, max: 60_000 }),
        every,
        fc.integer({ min: 1, max: 8 }),
        (exposureMs, turnaroundMs, cycleMs, n, blocks) => {
          const lengthMs = blocks * (n * (exposureMs + turnaroundMs) + cycleMs);
          const { outcome } = runExactly(
            courseOf(lengthMs, [{ id: 'heron', exposureMs, turnaroundMs }], { ditherEvery: n }, { cycleMs }),
          );
          expect(outcome.keptMs).toBe(blocks * n * exposureMs);
          expect(outcome.dithers).toBe(blocks);
          expect(outcome.trains.heron?.waitedMs).toBe(0);
        },
      ),
    );
  });
});

describe('two trains of equal periods', () => {
  /**
   * B begins φ after A, 0 < φ < a, and again after each dither, as when its computer is slower to resume. When A has
   * its n frames at n·a, B stands φ before the end of its n-th and A waits φ. So the wait is φ at each dither, B never
   * waits, and both take n frames a block.
   */
  it('wait for the phase between them at every dither', () => {
    fc.assert(
      fc.property(
        period,
        every,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.integer({ min: 1, max: 8 }),
        (a, n, part, blocks) => {
          const phaseMs = Math.max(1, Math.min(a - 1, Math.round(a * part)));
          const cycleMs = 16_000;
          const lengthMs = blocks * (n * a + phaseMs + cycleMs);
          const resumes = { inOrder: [], pool: [phaseMs], typicalMs: phaseMs, certainty: 'measured' as const };
          const course = courseOf(
            lengthMs,
            [
              { id: 'heron', exposureMs: a },
              { id: 'wren', exposureMs: a, startMs: START_MS + phaseMs, resumes },
            ],
            { ditherEvery: n },
            { cycleMs },
          );
          const { outcome, run } = runExactly(course);
          expect(outcome.dithers).toBe(blocks);
          expect(outcome.trains.heron?.waitedMs).toBe(blocks * phaseMs);
          expect(outcome.trains.wren?.waitedMs).toBe(0);
          expect(run.exposures[1]?.length).toBe(blocks * n);
        },
      ),
    );
  });

  /** Over phases spread evenly from 0 to a the mean wait is a/2: the mean of φ. Here over whole per cents of a. */
  it('wait half a period on average when the phase is left to chance', () => {
    const a = 300_000;
    const phases = Array.from({ length: 100 }, (_, i) => (i + 0.5) / 100);
    const waits = phases.map((part) => {
      const course = courseOf(
        3 * a + a,
        [
          { id: 'heron', exposureMs: a },
          { id: 'wren', exposureMs: a, startMs: START_MS + Math.round(part * a) },
        ],
        { ditherEvery: 3 },
      );
      return runExactly(course).outcome.trains.heron?.waitedMs ?? NaN;
    });
    expect(waits.reduce((s, w) => s + w, 0) / waits.length).toBe(a / 2);
  });
});

describe('a companion whose period divides the pilot’s', () => {
  /** With a = k·b B ends its n·k-th exposure at n·k·b = n·a, in the same instant as A its n-th. */
  it('is never waited for and never waits', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20_000, max: 200_000 }),
        fc.integer({ min: 1, max: 6 }),
        every,
        fc.integer({ min: 1, max: 5 }),
        (b, k, n, blocks) => {
          const lengthMs = blocks * (n * k * b + 16_000);
          const { outcome, run } = runExactly(
            courseOf(
              lengthMs,
              [
                { id: 'heron', exposureMs: k * b },
                { id: 'wren', exposureMs: b },
              ],
              { ditherEvery: n },
              { cycleMs: 16_000 },
            ),
          );
          expect([outcome.trains.heron?.waitedMs, outcome.trains.wren?.waitedMs]).toEqual([0, 0]);
          expect(run.exposures.map((e) => e.length)).toEqual([blocks * n, blocks * n * k]);
        },
      ),
    );
  });
});

describe('two trains of any periods', () => {
  /**
   * Both begin together after a dither. At n·a B has ended m = ⌊n·a ÷ b⌋ exposures and last stood free r = n·a − m·b
   * before A is ready. With a patience q < b: if r ≤ q, B stops there and waits r; else it begins another and A waits until
   * it ends, b − r. For r = 0 nobody waits.
   */
  it('wait n·a mod b, or the rest of b, by the companion’s patience', () => {
    fc.assert(
      fc.property(
        period,
        period,
        every,
        fc.integer({ min: 0, max: 120_000 }),
        fc.integer({ min: 1, max: 6 }),
        (a, b, n, most, blocks) => {
          const patience = Math.min(most, b - 1);
          const m = Math.floor((n * a) / b);
          const r = n * a - m * b;
          const stops = r <= patience && r > 0;
          // With m = 0 B is within the very first exposure after the dither if it did not wait from the start.
          const leadWaits = r === 0 || stops ? 0 : b - r;
          const followerWaits = stops ? r : 0;
          const taken = r === 0 || stops ? m : m + 1;
          const lengthMs = blocks * (n * a + leadWaits + 16_000);
          const course = courseOf(
            lengthMs,
            [
              { id: 'heron', exposureMs: a },
              { id: 'wren', exposureMs: b },
            ],
            { ditherEvery: n, patienceMs: { wren: patience } },
            { cycleMs: 16_000 },
          );
          const { outcome, run } = runExactly(course);
          expect(outcome.dithers).toBe(blocks);
          expect(outcome.trains.heron?.waitedMs).toBe(blocks * leadWaits);
          expect(outcome.trains.wren?.waitedMs).toBe(blocks * followerWaits);
          expect(run.exposures.map((e) => e.length)).toEqual([blocks * n, blocks * taken]);
        },
      ),
    );
  });

  /**
   * A companion that counts m frames of its own meets the lead at a barrier: the block lasts max(n·a, m·b) + c, and the
   * earlier one waits the difference.
   */
  it('wait |n·a − m·b| where each counts for itself', () => {
    fc.assert(
      fc.property(period, period, every, every, fc.integer({ min: 1, max: 6 }), (a, b, n, m, blocks) => {
        const cycleMs = 16_000;
        const lengthMs = blocks * (Math.max(n * a, m * b) + cycleMs);
        const { outcome } = runExactly(
          courseOf(
            lengthMs,
            [
              { id: 'heron', exposureMs: a },
              { id: 'wren', exposureMs: b },
            ],
            { ditherEvery: n, ownCount: { wren: m } },
            { cycleMs },
          ),
        );
        expect(outcome.trains.heron?.waitedMs).toBe(blocks * Math.max(0, m * b - n * a));
        expect(outcome.trains.wren?.waitedMs).toBe(blocks * Math.max(0, n * a - m * b));
        expect(outcome.keptMs).toBe(blocks * (n * a + m * b));
      }),
    );
  });
});

describe('three trains', () => {
  /** A barrier of three lasts as long as the longest of n·a, m·b and l·d; every train waits the difference to it. */
  it('all wait for the slowest', () => {
    fc.assert(
      fc.property(period, period, period, every, every, every, (a, b, d, n, m, l) => {
        const longest = Math.max(n * a, m * b, l * d);
        const course = courseOf(
          longest + 16_000,
          [
            { id: 'heron', exposureMs: a },
            { id: 'wren', exposureMs: b },
            { id: 'stilt', exposureMs: d },
          ],
          { ditherEvery: n, ownCount: { wren: m, stilt: l } },
          { cycleMs: 16_000 },
        );
        const { trains, dithers } = runExactly(course).outcome;
        expect(dithers).toBe(1);
        expect([trains.heron?.waitedMs, trains.wren?.waitedMs, trains.stilt?.waitedMs]).toEqual([
          longest - n * a,
          longest - m * b,
          longest - l * d,
        ]);
      }),
    );
  });
});

describe('guiding that is off for a while', () => {
  /**
   * Back-to-back exposures of length e with a pause p between them, and guiding off for a time L that begins at random.
   * An exposure is touched when the lapse begins within L before its begin or within it: a stretch of e + L in each
   * period e + p. Up to q of it at either end goes unnoticed. The expected number of touched exposures is
   * (e + L − 2q) ÷ (e + p); touched, it is no longer kept.
   */
  it('touches (e + L − 2q) ÷ (e + p) exposures on average', () => {
    const [e, p, lapse, notice] = [240_000, 60_000, 30_000, RULES.guidingOffNoticeSeconds * 1000];
    const step = 1000;
    let touched = 0;
    const begins = Array.from({ length: (e + p) / step }, (_, i) => START_MS + 5 * (e + p) + i * step + step / 2);
    for (const beginMs of begins) {
      const course = courseOf(20 * (e + p), [{ id: 'heron', exposureMs: e, turnaroundMs: p }]);
      const conditions = { ...course.conditions, lapses: [{ startMs: beginMs, endMs: beginMs + lapse }] };
      touched += runExactly({ ...course, conditions }).outcome.trains.heron?.lostOrDoubtfulFrames ?? NaN;
    }
    expect(touched / begins.length).toBeCloseTo((e + lapse - 2 * notice) / (e + p), 10);
  });
});
