/**
 * Dithers in step: how many subs each train takes between two, so that the shutters of all are closed simultaneously.
 */
import { itemAt } from '../model/collections.js';
import { DITHER_LEAST_MS, DITHER_MOST_MS } from './practice.js';

/** A train that exposes. */
export interface Exposing {
  readonly train: string;
  readonly subMs: number;
  readonly betweenSubsMs: number;
}

export interface Cadence {
  /** Subs between two dithers, in the order of the trains. */
  readonly subs: readonly number[];
  /** From one dither's end to the next one's begin, ms. */
  readonly runMs: number;
  /** The run and the dither. */
  readonly cycleMs: number;
  /** How long each train waits, ms. */
  readonly waitMs: readonly number[];
  /** Open shutter ÷ time of the clock, by train. */
  readonly openShares: readonly number[];
}

/** The step with most open shutter, all trains together. @param ditherMs a dither with its settling */
export function cadenceOf(trains: readonly Exposing[], ditherMs: number): Cadence {
  const periods = trains.map(({ subMs, betweenSubsMs }) => subMs + betweenSubsMs);
  const longest = Math.max(...periods);
  const most = Math.max(DITHER_MOST_MS, longest);
  let best: Cadence | null = null;
  // The length of a run is that of some train's whole subs; the others fit in what they can.
  for (const period of periods) {
    for (let count = 1; count * period <= most; count++) {
      const runMs = count * period;
      if (runMs < longest) continue;
      const one = step(trains, periods, runMs, ditherMs);
      if (best === null || isBetter(one, best)) best = one;
    }
  }
  return best ?? step(trains, periods, longest, ditherMs);
}

function step(trains: readonly Exposing[], periods: readonly number[], runMs: number, ditherMs: number): Cadence {
  const subs = periods.map((period) => Math.max(1, Math.floor(runMs / period + 1e-9)));
  const cycleMs = runMs + ditherMs;
  return {
    subs,
    runMs,
    cycleMs,
    waitMs: periods.map((period, i) => runMs - period * itemAt(subs, i)),
    openShares: trains.map(({ subMs }, i) => (subMs * itemAt(subs, i)) / cycleMs),
  };
}

/** Runs that are long enough come first, then open shutter. */
function isBetter(a: Cadence, b: Cadence): boolean {
  const [longA, longB] = [a.runMs >= DITHER_LEAST_MS, b.runMs >= DITHER_LEAST_MS];
  return longA === longB ? sumOf(a.openShares) > sumOf(b.openShares) + 1e-9 : longA;
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
