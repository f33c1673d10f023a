import { isTook, tookUnit } from '../group-names.js';
import type { Kind, Slot } from './kind.js';
import { numberIn } from './values.js';

/** A kind whose lines stand at the beginning of what they tell, and say how long it took. */
export interface Spanning {
  /** How long it took. */
  readonly slot: Slot;
  /** The kind at the times at which the things were over. */
  readonly kind: Kind;
  /** How long they had taken, ms, by occurrence. */
  readonly tookMs: readonly number[];
}

/** Exposures of several trains overlap whatever their stamps are; what is shorter comes one after the other. */
const SHORT_MS = 200_000;
/** Short exposures do, too: the shortest things tell as much where there are enough of them. */
const SHORTER_MS = [SHORT_MS, 60_000] as const;
const SLACK_MS = 1500;
const MIN_SPANS = 8;
/**
 * This share of the spans runs into what was before, when it is counted back; hardly any when it is counted forward.
 */
const RUNS_BACK = 0.3;
const RUNS_FORWARD = 0.4;
/** Spans with a line where they end, of all; those with one where they would begin, counted back, of these. */
const ANSWERED = 0.4;
const BEFORE = 0.25;

/**
 * The kinds of a log that stamps each thing with its beginning and writes it when it is over: `21:03:10 focus, took
 * 88 s`. Told by the night: counted back from their stamps, such spans would overlap again and again.
 *
 * @param isKnown other rows have told that the log does so
 */
export function beginStamped(kinds: readonly Kind[], isKnown = false): ReadonlyMap<Kind, Spanning> {
  const spanning = new Map(
    kinds.flatMap((kind): [Kind, Spanning][] => {
      const slot = tookSlot(kind);
      if (slot === undefined) return [];
      const tookMs = slot.perLine.map((value) => numberIn(value) * (tookUnit(slot) ?? 1) * 1000);
      return [[kind, { slot, tookMs, kind: { ...kind, atMs: kind.atMs.map((atMs, i) => atMs + (tookMs[i] ?? NaN)) } }]];
    }),
  );
  if (isKnown) return spanning;
  const spans = [...spanning]
    .flatMap(([{ atMs }, { tookMs }]) => atMs.map((at, i) => ({ atMs: at, tookMs: tookMs[i] ?? NaN })))
    .filter(({ atMs, tookMs }) => !Number.isNaN(atMs) && tookMs <= SHORT_MS)
    .sort((a, b) => a.atMs - b.atMs);
  const isBegin = SHORTER_MS.some((mostMs) => runsBack(spans.filter(({ tookMs }) => tookMs <= mostMs)));
  return isBegin || isAnswered(kinds, spans) ? spanning : new Map();
}

interface Span {
  readonly atMs: number;
  readonly tookMs: number;
}

/** Whether spans, counted back from their stamps, run into what was before, and hardly any does counted forward. */
function runsBack(spans: readonly Span[]): boolean {
  let back = 0;
  let forward = 0;
  for (const [i, span] of spans.entries()) {
    const before = spans[i - 1];
    const after = spans[i + 1];
    if (before !== undefined && span.atMs - span.tookMs < before.atMs - SLACK_MS) back++;
    if (after !== undefined && span.atMs + span.tookMs > after.atMs + SLACK_MS) forward++;
  }
  return spans.length >= MIN_SPANS && back >= RUNS_BACK * spans.length && forward <= RUNS_FORWARD * back;
}

/**
 * Whether something is told when such spans are over, counted forward from their stamps, and hardly anything before.
 */
function isAnswered(kinds: readonly Kind[], spans: readonly Span[]): boolean {
  if (spans.length < MIN_SPANS) return false;
  const told = new Set(kinds.flatMap(({ atMs }) => atMs.map((at) => Math.round(at / SLACK_MS))));
  const isTold = (atMs: number): boolean => [-1, 0, 1].some((away) => told.has(Math.round(atMs / SLACK_MS) + away));
  const after = spans.filter(({ atMs, tookMs }) => isTold(atMs + tookMs)).length;
  const before = spans.filter(({ atMs, tookMs }) => isTold(atMs - tookMs)).length;
  return after >= ANSWERED * spans.length && before <= BEFORE * after;
}

/** The number of seconds that a thing took. */
function tookSlot({ slots }: Kind): Slot | undefined {
  return slots.find(isTook);
}
