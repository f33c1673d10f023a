import { beginOf, endOf, type EventName, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { tellsBoth } from '../two-at-once.js';
import type { Occurrence } from './occurrences.js';
import { isTwin } from './twins.js';
import type { Taken, TrainOf } from './withdrawal.js';

/** Fewer lines alternate by accident. */
const MIN_LINES = 2;
const IN_TURN = 0.8;
/** If other lines report this fraction as many of the other side, it is not missing. */
const OTHER_SIDE_SHARE = 0.3;
/**
 * A span is shorter than the gap after it (common practice, no source): two alternating filters are not begin and end.
 */
const SHORTER = 0.3;
const LONGEST_MS = 600_000;
/** Clouds stay longer. */
const LONGEST_HOLD_MS = 6 * 3_600_000;
/**
 * Guiding for less than this has not started yet: the star is selected first, then followed (common practice, no
 * source).
 */
const SHORTEST_GUIDING_MS = 60_000;

/**
 * Finds kinds taken for the same begin, or the same end, that strictly alternate: if no other line reports the end, the
 * first is the begin and the second the end. If that guiding would end at once, the second is its begin and the first
 * only leads up to it.
 *
 * @returns the new events of such kinds, `null` for none
 */
export function alternating(
  taken: ReadonlyMap<Kind, Taken>,
  timeline: readonly Occurrence[],
  trainOf: TrainOf,
): Map<Kind, EventName | null> {
  const changed = new Map<Kind, EventName | null>();
  const counts = new Map<EventName, number>();
  for (const [kind, { event }] of taken) counts.set(event, (counts.get(event) ?? 0) + kind.count);
  const kinds = [...taken].filter(([kind]) => kind.count >= MIN_LINES);
  for (const [i, [a, { event }]] of kinds.entries()) {
    const other = otherSideOf(event);
    // Exposures are distinguished by their lengths.
    if (other === undefined || event.startsWith('exposure')) continue;
    for (const [b, { event: same }] of kinds.filter(([, { event: one }], j) => j > i || one !== event)) {
      if (
        (same !== event && !endsBesides(b, same, event)) ||
        changed.has(a) ||
        changed.has(b) ||
        isTwin(a, b) ||
        areApart(a, b, trainOf)
      )
        continue;
      const turns = (counts.get(other) ?? 0) >= OTHER_SIDE_SHARE * (a.count + b.count) ? null : turnsOf(a, b, timeline);
      if (turns === null) continue;
      const [first, second, gapMs, restMs] = turns;
      if (same !== event && first !== a) continue;
      if (event === 'guiding-begin' && gapMs < SHORTEST_GUIDING_MS) changed.set(first, null);
      else if (gapMs < SHORTER * restMs && gapMs < (event.startsWith('hold') ? LONGEST_HOLD_MS : LONGEST_MS))
        changed.set(endOf(event) === undefined ? first : second, other);
    }
  }
  return changed;
}

/** Whether lines taken for the immediate successor also report that end: `shift done, settling now`. */
function endsBesides(kind: Kind, taken: EventName, event: EventName): boolean {
  return beginOf(event) !== undefined && tellsBoth(kind, event, taken);
}

/** Whether the two are about different trains. */
function areApart(a: Kind, b: Kind, trainOf: TrainOf): boolean {
  const [one, other] = [trainOf(a, 0), trainOf(b, 0)];
  return one >= 0 && other >= 0 && one !== other;
}

/**
 * The two in the order in which they directly follow each other, with the median times from first to second and from
 * there to the next first; `null` if they do not alternate.
 */
function turnsOf(
  a: Kind,
  b: Kind,
  timeline: readonly Occurrence[],
): readonly [first: Kind, second: Kind, gapMs: number, restMs: number] | null {
  const own = timeline.filter(({ kind }) => kind === a || kind === b);
  const afterA: number[] = [];
  const afterB: number[] = [];
  for (const [i, { kind, atMs }] of own.entries()) {
    const next = own[i + 1];
    if (next === undefined || next.kind === kind) continue;
    (kind === a ? afterA : afterB).push(next.atMs - atMs);
  }
  if (afterA.length + afterB.length < IN_TURN * (own.length - 1)) return ofTwoTrains(own);
  const [gapA, gapB] = [middle(afterA), middle(afterB)];
  const [begun] = own;
  const isA = begun?.kind === a;
  return isA ? [a, b, gapA, gapB] : [b, a, gapB, gapA];
}

/** Maximum fraction of wheels that start simultaneously, and of lines without an answer. */
const AT_ONCE = 2;
const OUT_OF_TURN = 0.05;
const MIN_PAIRS = 4;

/** The same for two trains acting simultaneously: both begin, then both finish. */
function ofTwoTrains(own: readonly Occurrence[]): ReturnType<typeof turnsOf> {
  const [begun] = own;
  const second = own.find(({ kind }) => kind !== begun?.kind)?.kind;
  if (begun === undefined || second === undefined) return null;
  const open: number[] = [];
  const gaps: number[] = [];
  const rests: number[] = [];
  let lastMs = NaN;
  let outOfTurn = 0;
  for (const { kind, atMs } of own) {
    if (kind === begun.kind) {
      if (open.length === 0 && !Number.isNaN(lastMs)) rests.push(atMs - lastMs);
      open.push(atMs);
    } else {
      lastMs = atMs;
      const fromMs = open.shift();
      if (fromMs !== undefined) gaps.push(atMs - fromMs);
      else outOfTurn++;
    }
    if (open.length > AT_ONCE) {
      open.shift();
      outOfTurn++;
    }
  }
  if (outOfTurn > OUT_OF_TURN * own.length || gaps.length < MIN_PAIRS || rests.length === 0) return null;
  return [begun.kind, second, middle(gaps), middle(rests)];
}

function middle(values: readonly number[]): number {
  return [...values].sort((x, y) => x - y)[values.length >> 1] ?? Infinity;
}
