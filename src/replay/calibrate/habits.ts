/**
 * The rules of a night, inferred from its frames and dithers: which train's frames lead to a dither, how many, whom a
 * dither waits for, and how early a train stops for one.
 */
import {
  groupBy,
  itemAt,
  partitionPoint,
  type Certainty,
  type DitherCycle,
  type JudgedFrame,
  type AccountedNight,
  ownValue,
} from '../../model/index.js';
import type { ReplayRules } from '../course.js';
import { cycleEndMs } from './idles.js';
import type { Known } from './known.js';
import { restsInPauses } from './rests.js';
import type { Stretch } from './stretches.js';

export interface Habits {
  readonly rules: ReplayRules;
  readonly stopsResetCount: boolean;
  readonly restsInPauses: readonly string[];
  /** Trains that the dithers before their start waited for. */
  readonly awaitedToStart: readonly string[];
  /** Followers whose patience is unknown from this night. */
  readonly unseenPatience: readonly string[];
  /** Followers that count their own frames, but whose waits a patience explains as well: that, ms. */
  readonly otherPatienceMs: Readonly<Record<string, number>>;
  /** Certainty of the dither count. */
  readonly countCertainty: Certainty;
}

/** A count found in this fraction of the intervals is a rule. */
const CLEAR_SHARE = 0.6;
/** Minimum number of intervals between dithers for inferring a count. */
const MIN_INTERVALS = 4;
/** Nobody begins another exposure if a dither is expected within this, ms. Common practice, no source. */
const SHORT_WAIT_MS = 60_000;
/** A train that was ready later than this after another did not wait for it, ms. */
const TOGETHER_MS = 1000;

/** Infers the habits of a night; the first train is the pilot, and there is at least that one. */
export function habitsOf(known: readonly Known[], night: AccountedNight, stretches: readonly Stretch[]): Habits {
  const counts = known.map((train) => ({ train, ...usualCount(train, night.accounts.dithers, stretches) }));
  const pilot = itemAt(counts, 0);
  const steadiest = counts.reduce((best, c) => (c.share > best.share + 0.2 ? c : best), pilot);
  const lead = pilot.share >= CLEAR_SHARE ? pilot : steadiest;
  const leadId = lead.train.course.id;
  const ditherEvery = night.accounts.dithers.length === 0 ? null : Math.max(1, lead.count ?? 1);
  const followers = known.filter((t) => t.course.id !== leadId && isAwaited(t, night.accounts.dithers));
  const patiences = commonPatience(followers.map((t) => patienceOf(t, leadId, night.accounts.dithers)));
  const stopping = followers.map(
    (t, i) => [t.course.id, stoppingRule(t, itemAt(patiences, i), night.accounts.dithers, stretches)] as const,
  );
  return {
    rules: {
      ditherEvery,
      lead: leadId,
      awaited: [leadId, ...followers.map((t) => t.course.id)],
      ownCount: Object.fromEntries(stopping.flatMap(([id, rule]) => ('count' in rule ? [[id, rule.count]] : []))),
      patienceMs: Object.fromEntries(
        stopping.flatMap(([id, rule]) => ('patienceMs' in rule ? [[id, rule.patienceMs]] : [])),
      ),
      exposureMs: {},
      filterExposureMs: {},
      startMs: {},
      focus: 'own',
      guiding: night.gathered.guideSource.source === 'guide-scope' ? 'guide-scope' : 'off-axis',
    },
    otherPatienceMs: Object.fromEntries(
      stopping.flatMap(([id, rule]) => ('orPatienceMs' in rule ? [[id, rule.orPatienceMs]] : [])),
    ),
    unseenPatience: stopping.flatMap(([id, rule]) => ('isUnseen' in rule && rule.isUnseen ? [id] : [])),
    stopsResetCount:
      ditherEvery === null ||
      lead.train === undefined ||
      resetsAtStops(lead.train, ditherEvery, night.accounts.dithers, stretches),
    restsInPauses: known.filter((t) => restsInPauses(t, night) ?? followers.includes(t)).map((t) => t.course.id),
    awaitedToStart: followers
      .filter((t) => isAwaitedToStart(t, leadId, night.accounts.dithers))
      .map((t) => t.course.id),
    countCertainty:
      lead.intervals >= 3 && lead.share >= CLEAR_SHARE
        ? 'measured'
        : night.accounts.dithers.length === 0
          ? 'assumed'
          : 'inferred',
  };
}

/**
 * A follower begins no exposure within this of a dither if the night does not show it, ms. Common practice, no source.
 */
const UNSEEN_PATIENCE_MS = 30_000;

/** Lights that begin within the span, by binary search: they are sorted. */
function begunWithin(lights: readonly JudgedFrame[], fromMs: number, toMs: number): number {
  return (
    partitionPoint(lights, (f) => f.exposure.startMs >= toMs) -
    partitionPoint(lights, (f) => f.exposure.startMs >= fromMs)
  );
}

/** Frames begun before each dither: since the previous one, or since the train's start, without a stop in between. */
function countsBefore(
  { course, lights }: Known,
  cycles: readonly DitherCycle[],
  stretches: readonly Stretch[],
): number[] {
  return cycles.flatMap((cycle, i) => {
    const fromMs = Math.max(cycles[i - 1]?.beginMs ?? -Infinity, course.startMs);
    if (fromMs >= cycle.beginMs || stretches.some((s) => s.span.startMs < cycle.beginMs && s.span.endMs > fromMs))
      return [];
    const count = begunWithin(lights, fromMs, cycle.beginMs);
    return count > 0 ? [count] : [];
  });
}

/** The most frequent count. */
function usualCount(
  train: Known,
  cycles: readonly DitherCycle[],
  stretches: readonly Stretch[],
): { count: number | null; share: number; intervals: number } {
  const counts = countsBefore(train, cycles, stretches);
  const [most] = [...groupBy(counts, (c) => c)].sort((a, b) => b[1].length - a[1].length);
  return most
    ? { count: most[0], share: most[1].length / counts.length, intervals: counts.length }
    : { count: null, share: 0, intervals: 0 };
}

/** Whether dithers waited for the train's shutter: it was closed at most of those within its time. */
function isAwaited({ course, lights }: Known, cycles: readonly DitherCycle[]): boolean {
  const met = cycles.filter((c) => c.beginMs > course.startMs && c.beginMs < course.endMs);
  const open = met.filter((c) => {
    const last = lights[partitionPoint(lights, (f) => f.exposure.startMs >= c.beginMs) - 1];
    return last !== undefined && last.exposure.endMs > c.beginMs;
  });
  return open.length * 2 <= met.length;
}

/**
 * When a follower stops for a dither: after a number of its own frames, or when the lead will soon be ready. Whichever
 * explains its waits with fewer exceptions; its own count if a wait would have been long enough for another exposure.
 */
function stoppingRule(
  follower: Known,
  patience: Patience,
  cycles: readonly DitherCycle[],
  stretches: readonly Stretch[],
): { count: number } | { count: number; orPatienceMs: number } | { patienceMs: number; isUnseen: boolean } {
  const { count, share, intervals } = usualCount(follower, cycles, stretches);
  const countMisses = Math.round((1 - share) * intervals);
  const counts =
    count !== null &&
    intervals >= MIN_INTERVALS &&
    (countMisses < patience.misses || (countMisses === patience.misses && patience.ms > SHORT_WAIT_MS));
  if (!counts) return { patienceMs: patience.ms, isUnseen: patience.isUnseen === true };
  return countMisses < patience.misses ? { count } : { count, orPatienceMs: patience.ms };
}

/** How long before a dither a follower begins no exposure. */
interface Patience {
  readonly ms: number;
  /** Waits and exposures that contradict it. */
  readonly misses: number;
  /** Longer ones would contradict an exposure that was begun; absent: not known. */
  readonly belowMs?: number;
  readonly isUnseen?: true;
}

/**
 * Each night shows a range of a follower's patience, from its longest wait to its last exposure begun. Programs treat
 * followers alike: the most patient one's holds for those whose range contains it.
 */
function commonPatience(own: readonly Patience[]): Patience[] {
  const mostMs = Math.max(0, ...own.map(({ ms, isUnseen }) => (isUnseen ? 0 : ms)));
  return own.map((one) =>
    one.isUnseen !== true && one.ms > 0 && mostMs < (one.belowMs ?? one.ms) ? { ...one, ms: mostMs } : one,
  );
}

/** The minimum time before the lead's readiness that separates waits from further exposures. */
function patienceOf({ course, lights }: Known, lead: string, cycles: readonly DitherCycle[]): Patience {
  const waited: number[] = [];
  const begun: number[] = [];
  for (const [i, cycle] of cycles.entries()) {
    const own = ownValue(cycle.waits, course.id);
    const leads = ownValue(cycle.waits, lead);
    if (!leads) continue;
    if (own && leads.readyMs - own.readyMs > TOGETHER_MS) waited.push(leads.readyMs - own.readyMs);
    const previous = cycles[i - 1];
    const fromMs = previous ? cycleEndMs(previous) : course.startMs;
    const first = partitionPoint(lights, (f) => f.exposure.startMs > fromMs);
    const end = partitionPoint(lights, (f) => f.exposure.startMs >= leads.readyMs);
    for (let at = first; at < end; at++) begun.push(leads.readyMs - itemAt(lights, at).exposure.startMs);
  }
  waited.sort((a, b) => a - b);
  begun.sort((a, b) => a - b);
  const upTo = (sorted: readonly number[], ms: number): number => partitionPoint(sorted, (one) => one > ms);
  let best: Patience = { ms: 0, misses: waited.length };
  for (const ms of waited) {
    const misses = waited.length - upTo(waited, ms) + upTo(begun, ms);
    if (misses < best.misses) best = { ms, misses };
  }
  // The night shows neither a wait nor an exposure begun so shortly before: then none is begun before an imminent
  // dither.
  const [shortest] = begun;
  if (waited.length === 0 && shortest !== undefined)
    return { ms: Math.min(UNSEEN_PATIENCE_MS, Math.round(shortest / 2)), misses: 0, isUnseen: true };
  if (best.ms === 0) return best;
  // With a margin, so that the night's own longest wait is reproduced although the replay predicts it from medians; and
  // no less than anybody would wait, if no exposure was begun so shortly before a dither.
  const nextMs = begun[upTo(begun, best.ms)] ?? Infinity;
  const seenMs = Math.round(best.ms * 1.02) + TOGETHER_MS;
  const ms = Math.max(seenMs, Math.min(UNSEEN_PATIENCE_MS, Math.round(nextMs / 2)));
  return { ...best, ms, belowMs: nextMs };
}

/** Whether the count to the next dither restarts after a stop; assumed if the night does not show it. */
function resetsAtStops(
  { lights }: Known,
  every: number,
  cycles: readonly DitherCycle[],
  stretches: readonly Stretch[],
): boolean {
  let votes = 0;
  for (const { span } of stretches) {
    const before = cycles.findLast((c) => c.beginMs < span.startMs);
    const after = cycles.find((c) => c.beginMs >= span.endMs);
    if (!before || !after) continue;
    const done = begunWithin(lights, before.beginMs, span.startMs);
    const further = begunWithin(lights, span.endMs - 60_000, after.beginMs);
    if (done % every === 0) continue;
    if (further === every) votes++;
    else if (done + further === every) votes--;
  }
  return votes >= 0;
}

/** Whether the lead waited with its dither until the follower began, rather than dithering without it. */
function isAwaitedToStart({ course }: Known, lead: string, cycles: readonly DitherCycle[]): boolean {
  const before = cycles.findLast((c) => c.beginMs < course.startMs);
  const wait = ownValue(before?.waits, lead)?.waitMs ?? 0;
  return before !== undefined && wait > SHORT_WAIT_MS && course.startMs - cycleEndMs(before) <= SHORT_WAIT_MS;
}
