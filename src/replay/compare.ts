/**
 * Compares rules: many runs each, with durations resampled from the night's own, and the same random draws for both.
 */
import {
  itemAt,
  groupBy,
  mean,
  quantile,
  sum,
  type DitherPlaces,
  type ReplayGain,
  type ReplayOutcome,
  type ReplayTally,
  ownValue,
} from '../model/index.js';
import type { Course, ReplayRules } from './course.js';
import { resampled } from './draws.js';
import { judge } from './judge.js';
import { applySettings, type Setting } from './settings.js';
import { changesRhythm, withOtherPatience } from './unseen-patience.js';
import { simulate, type Run } from './simulate.js';

/** Runs behind every figure, and the total number of frames they may take: a night of thousands has fewer runs. */
export const MOST_RUNS = 12;
let mostRuns = MOST_RUNS;
const LEAST_RUNS = 4;
const FRAMES = 4000;

/**
 * Reduces the number of runs of every replay from now on, for callers that need its structure but no figures.
 *
 * @returns how many it was before
 */
export function replayAtMost(runs: number): number {
  const before = mostRuns;
  mostRuns = runs;
  return before;
}

/** Number of runs for a night. With more frames chance averages out within each. */
export function runsFor({ trains }: Course): number {
  const frames = sum(trains.flatMap((t) => t.blocks.map((b) => b.frames)));
  return Math.min(mostRuns, Math.max(LEAST_RUNS, Math.floor(FRAMES / Math.max(1, frames))));
}

interface Measured {
  readonly outcome: ReplayOutcome;
  readonly gain: ReplayGain;
}

/** Measures settings against the night's own rules. */
export interface Comparison {
  readonly runs: number;
  readonly baseline: ReplayOutcome;
  /** The mean outcome and the gain over the first `runs` runs. */
  measure(settings: readonly Setting[], runs?: number): Measured;
}

/** The same for rules. */
interface RulesComparison extends Omit<Comparison, 'measure'> {
  measure(rules: ReplayRules, runs?: number): Measured;
}

/**
 * Where a night's waits have two explanations that fit alike, settings that change the rhythm are measured by both: the
 * gain is the mean, and its range reaches over both.
 */
export function compareWith(course: Course): Comparison {
  const own = compareRules(course);
  const other = withOtherPatience(course);
  let second: RulesComparison | undefined;
  return {
    ...own,
    measure(settings, runs) {
      const first = own.measure(applySettings(course, settings), runs);
      if (other === null || !changesRhythm(settings)) return first;
      second ??= compareRules(other);
      const also = second.measure(applySettings(other, settings), runs);
      return {
        outcome: meanOf([first.outcome, also.outcome]),
        gain: {
          meanMs: mean([first.gain.meanMs, also.gain.meanMs]),
          lowMs: Math.min(first.gain.lowMs, also.gain.lowMs),
          highMs: Math.max(first.gain.highMs, also.gain.highMs),
        },
      };
    },
  };
}

/** Seeds are 1, 2, …: the same night gives the same figures on every machine. */
function compareRules(course: Course): RulesComparison {
  let run: Run | undefined;
  // The night's own rules are among the what-ifs, and parts of the best combination are tried in fewer runs.
  const known = new Map<string, readonly ReplayOutcome[]>();
  const runsOf = (rules: ReplayRules, runs: number): readonly ReplayOutcome[] => {
    const key = JSON.stringify(rules);
    const before = known.get(key) ?? [];
    const outcomes = Array.from({ length: runs }, (_, i): ReplayOutcome => {
      const same = before[i];
      if (same) return same;
      const draws = resampled(i + 1);
      run = simulate(course, rules, draws, run);
      return judge(course, run, draws);
    });
    if (runs > before.length) known.set(key, outcomes);
    return outcomes;
  };
  const all = runsFor(course);
  const base = runsOf(course.rules, all);
  return {
    runs: all,
    baseline: meanOf(base),
    measure(rules, runs = all) {
      const count = Math.min(runs, all);
      const outcomes = runsOf(rules, count);
      const gains = outcomes.map((o, i) => o.keptMs - itemAt(base, i).keptMs);
      return {
        outcome: meanOf(outcomes),
        gain: {
          meanMs: mean(gains),
          lowMs: Math.round(quantile(gains, 0.1)),
          highMs: Math.round(quantile(gains, 0.9)),
        },
      };
    },
  };
}

function meanOf(outcomes: readonly ReplayOutcome[]): ReplayOutcome {
  const ids = Object.keys(outcomes[0]?.trains ?? {});
  const over = (of: (o: ReplayOutcome) => number): number => mean(outcomes.map(of));
  const part = (id: string, of: (t: ReplayTally) => number): number =>
    over((o) => {
      const t = ownValue(o.trains, id);
      return t ? of(t) : 0;
    });
  return {
    trains: Object.fromEntries(
      ids.map((id) => [
        id,
        {
          keptMs: part(id, (t) => t.keptMs),
          keptFrames: part(id, (t) => t.keptFrames),
          lostOrDoubtfulFrames: part(id, (t) => t.lostOrDoubtfulFrames),
          waitedMs: part(id, (t) => t.waitedMs),
        },
      ]),
    ),
    keptMs: over((o) => o.keptMs),
    dithers: over((o) => o.dithers),
    places: meanPlaces(outcomes),
  };
}

/** Mean positions over the runs; in a run without a kept frame a group has none. */
function meanPlaces(outcomes: readonly ReplayOutcome[]): DitherPlaces[] {
  const all = outcomes.flatMap((o) => o.places);
  return [...groupBy(all, ({ train, target, filter }) => JSON.stringify([train, target, filter])).values()].flatMap(
    (own) => (own[0] ? [{ ...own[0], places: sum(own.map((p) => p.places)) / outcomes.length }] : []),
  );
}
