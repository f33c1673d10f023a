/**
 * Rules against rules: many runs each, with durations resampled from the night's own, and the same draws for both.
 */
import { quantile, type ReplayGain, type ReplayOutcome, type ReplayTally } from '../model/index.js';
import type { Course, ReplayRules } from './course.js';
import { resampled } from './draws.js';
import { judge } from './judge.js';
import { simulate } from './simulate.js';

/** Runs behind every figure. */
export const RUNS = 12;

/** Measures rules against the night's own. */
export interface Comparison {
  readonly baseline: ReplayOutcome;
  /** The mean outcome and the gain over the first `runs` runs. */
  measure(rules: ReplayRules, runs?: number): { readonly outcome: ReplayOutcome; readonly gain: ReplayGain };
}

/** Seeds are 1, 2, …: the same night gives the same figures on every machine. */
export function compareWith(course: Course): Comparison {
  const runsOf = (rules: ReplayRules, runs: number): ReplayOutcome[] =>
    Array.from({ length: runs }, (_, i) => {
      const draws = resampled(i + 1);
      return judge(course, simulate(course, rules, draws), draws);
    });
  const base = runsOf(course.rules, RUNS);
  return {
    baseline: meanOf(base),
    measure(rules, runs = RUNS) {
      const outcomes = runsOf(rules, runs);
      const gains = outcomes.map((o, i) => o.keptMs - (base[i]?.keptMs ?? NaN));
      return {
        outcome: meanOf(outcomes),
        gain: { meanMs: mean(gains), lowMs: Math.round(quantile(gains, 0.1)), highMs: Math.round(quantile(gains, 0.9)) },
      };
    },
  };
}

function meanOf(outcomes: readonly ReplayOutcome[]): ReplayOutcome {
  const ids = Object.keys(outcomes[0]?.trains ?? {});
  const over = (of: (o: ReplayOutcome) => number): number => mean(outcomes.map(of));
  const part = (id: string, of: (t: ReplayTally) => number): number => over((o) => { const t = o.trains[id]; return t ? of(t) : 0; });
  return {
    trains: Object.fromEntries(
      ids.map((id) => [id, { keptMs: part(id, (t) => t.keptMs), keptFrames: part(id, (t) => t.keptFrames), spoiltFrames: part(id, (t) => t.spoiltFrames), waitedMs: part(id, (t) => t.waitedMs) }]),
    ),
    keptMs: over((o) => o.keptMs),
    dithers: over((o) => o.dithers),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / values.length;
}
