/**
 * A clock that runs fast or slow relative to the reference: no single offset converts its times, but one that grows by
 * the same amount every hour does. Over a night it resembles a clock that was set by half of it in the middle.
 */
import { itemAt, type ClockDrift } from '../../model/index.js';
import { runningSums, type ClockEvidence, type Habit } from './likelihood.js';
import { LEAST_JUMP_MS, PART_HABITS, type JumpInDithers } from './jump.js';
import { steps } from './posterior.js';

const HOUR_MS = 3_600_000;
/** No computer's clock drifts faster, ms per hour: a tenth of a per cent. Common practice, no source. */
const FASTEST_MS = 3600;
/** Rates and offsets searched: coarsely over the whole range, then finely around the best, ms per hour and ms. */
const RATE_STEP_MS = 50;
const FINE_RATE_MS = 10;
const OFFSET_STEP_MS = 100;
/** Offsets at midnight are this close to those of a clock that was set, or to the best single offset, ms. */
const NEAR_MS = 6000;
/** Two offsets farther apart cannot be the two halves of a drift, ms. */
const FARTHEST_MS = 40_000;
/** Fewer dithers, or a shorter time in ms, do not determine a rate. */
const FEWEST_PAUSES = 8;
const SHORTEST_MS = 2 * HOUR_MS;
/** How much better than one offset a drift must explain the dithers, as a log-likelihood ratio: as for a jump. */
const LEAST_GAIN = 9;

/** A drift with the offset at its middle, and how well it explains the dithers. */
interface DriftFit extends ClockDrift {
  readonly middleMs: number;
  readonly value: number;
}

/**
 * The drift implied by the dithers: a steadily growing offset explains them far better than a constant one, and no
 * worse than a clock that was set once.
 *
 * @param evidence its pauses in chronological order
 * @param jump the setting of the clock that would explain them, or the single offset
 */
export function driftInDithers(
  evidence: ClockEvidence,
  jump: Pick<JumpInDithers, 'beforeMs' | 'afterMs' | 'raw'>,
): ClockDrift | null {
  const [first, last] = [evidence.pauses[0], evidence.pauses.at(-1)];
  if (!first || !last || evidence.pauses.length < FEWEST_PAUSES) return null;
  const spanMs = last.moveMs - first.moveMs;
  if (spanMs < SHORTEST_MS || Math.abs(jump.afterMs - jump.beforeMs) > FARTHEST_MS) return null;
  const aboutMs = Math.round((first.moveMs + last.moveMs) / 2);
  const centreMs = Math.round((jump.beforeMs + jump.afterMs) / 2);
  const reach = Math.ceil((NEAR_MS + (FASTEST_MS * spanMs) / (2 * HOUR_MS)) / OFFSET_STEP_MS) + 1;
  const reachMs = reach * OFFSET_STEP_MS;
  const offsetsMs = steps(centreMs - reachMs, centreMs + reachMs, OFFSET_STEP_MS);
  const hours = evidence.pauses.map((p) => (p.moveMs - aboutMs) / HOUR_MS);
  const fits = PART_HABITS.map((habit) => bestOf(evidence, offsetsMs, habit, hours, aboutMs));
  const best = fits.reduce((a, b) => (b.drift.value > a.drift.value ? b : a));
  const steady = Math.max(...fits.map((f) => f.steady));
  const { perHourMs, value } = best.drift;
  if (Math.abs(perHourMs) * (spanMs / HOUR_MS) < LEAST_JUMP_MS) return null;
  if (value - steady < LEAST_GAIN || value < jump.raw) return null;
  return { perHourMs, aboutMs };
}

/** The best drift under one habit, and how well the best constant offset does. */
function bestOf(
  evidence: ClockEvidence,
  offsetsMs: readonly number[],
  habit: Habit,
  hours: readonly number[],
  aboutMs: number,
): { readonly drift: DriftFit; readonly steady: number } {
  const sums = runningSums(evidence, offsetsMs, habit);
  // What each pause contributes, worked out once for all rates.
  const gains = hours.map((_, i) => itemAt(sums, i + 1).map((value, k) => value - itemAt(sums, i)[k]!));
  const middle = (offsetsMs.length - 1) / 2;
  const near = Math.floor(NEAR_MS / OFFSET_STEP_MS);
  const totals = new Float64Array(2 * near + 1);
  const at = (perHourMs: number): DriftFit => {
    totals.fill(0);
    for (let i = 0; i < gains.length; i++) {
      const gain = gains[i]!;
      const from = middle - near + Math.round((hours[i]! * perHourMs) / OFFSET_STEP_MS);
      for (let k = 0; k < totals.length; k++) totals[k]! += gain[from + k]!;
    }
    let [best, value] = [middle, -Infinity];
    for (let k = 0; k < totals.length; k++) if (totals[k]! > value) [best, value] = [middle - near + k, totals[k]!];
    return { perHourMs, aboutMs, middleMs: itemAt(offsetsMs, best), value };
  };
  const greatest = (rates: readonly number[]): DriftFit => rates.map(at).reduce((a, b) => (b.value > a.value ? b : a));
  const coarse = greatest(steps(-FASTEST_MS, FASTEST_MS, RATE_STEP_MS));
  const fineMs = steps(coarse.perHourMs - RATE_STEP_MS, coarse.perHourMs + RATE_STEP_MS, FINE_RATE_MS);
  return { drift: greatest(fineMs.filter((ms) => Math.abs(ms) <= FASTEST_MS)), steady: at(0).value };
}

/** How much further ahead than at the drift's middle a clock is at an instant, ms. */
export function driftedMs({ perHourMs, aboutMs }: ClockDrift, atMs: number): number {
  return Math.round((perHourMs * (atMs - aboutMs)) / HOUR_MS);
}

/** The evidence corrected for the drift. */
export function withoutDrift(evidence: ClockEvidence, drift: ClockDrift): ClockEvidence {
  const steady = (ms: number): number => ms - driftedMs(drift, ms);
  return {
    ...evidence,
    shutters: evidence.shutters.map((s) => ({
      ...s,
      beginMs: steady(s.beginMs),
      endMs: steady(s.endMs),
      readyMs: steady(s.readyMs),
      notBeforeMs: steady(s.notBeforeMs),
    })),
    shared: evidence.shared.map((s) => ({ ...s, otherMs: s.otherMs.map(steady) })),
  };
}
