import type { EventName } from '../../../../model/index.js';
import { beginOf, endOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { isTook } from '../group-names.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { fit, surroundingsOf } from './context.js';
import { contradicting } from './consistency.js';
import { statedDurations, type Stated } from './durations.js';
import { timelineOf } from './occurrences.js';
import { statedExposures, valueEvidence, type StatedExposure } from './structure.js';

/** What a kind of line is taken for, and how surely. */
export interface Verdict {
  /** `null` where the evidence is too weak, or two events are too close. */
  readonly event: EventName | null;
  readonly score: number;
  /** How far the event is ahead of the next best one. */
  readonly margin: number;
  /** The likeliest events, best first, whether taken or not. */
  readonly nearest: readonly EventName[];
}

/** A kind with events that it cannot be. */
export interface Candidate {
  readonly kind: Kind;
  readonly only?: readonly EventName[];
  /** Evidence from elsewhere, such as exposures of the session's frames. */
  readonly extra?: ReadonlyMap<EventName, number>;
}

const SWEEPS = 4;
/** Weight of the neighbours against the words. */
const NEIGHBOURS = 1.5;
/** The evidence from which an event is taken, and the lead over the next that it needs. */
const TAKEN = 2.3;
const LEAD = 0.25;
/** A kind is tried only where its words or values speak for something. */
const TRIED = 0.6;
const STATED = 4;
/** A line that says how long something took says that it is over. */
const TOOK = 0.8;
/** Seconds that fit the night only as passed, or only as to come. */
const PASSED = 1.2;
/** A log that names the files it saves names them on every such line. */
const NAMELESS = 2;

/** What each kind is: words, values and neighbours weighed together, over and over until nothing changes. */
export function classify(candidates: readonly Candidate[]): { verdicts: Map<Kind, Verdict>; stated: StatedExposure[] } {
  const kinds = candidates.map(({ kind }) => kind);
  const timeline = timelineOf(kinds);
  const durations = statedDurations(kinds, timeline);
  const stated = statedExposures(kinds, timeline).filter(({ begin }) => durations.get(begin) !== 'past');
  const own = new Map(candidates.map((one) => [one.kind, ownEvidence(one, stated, durations.get(one.kind))] as const));
  const namesFiles = kinds.some((kind) => hasFile(kind) && (own.get(kind)?.get('frame-saved') ?? 0) > 2);
  if (namesFiles) {
    for (const [kind, evidence] of own) {
      const value = evidence.get('frame-saved');
      if (value !== undefined && !hasFile(kind)) evidence.set('frame-saved', value - NAMELESS);
    }
  }
  const events = new Map<Kind, EventName>();
  for (const [kind, evidence] of own) {
    const [best] = ranked(evidence);
    if (best !== undefined && best[1] >= 2) events.set(kind, best[0]);
  }
  const openMs = secondsOpen(stated) * 1000;
  const order = kinds.filter((kind) => ranked(own.get(kind) ?? new Map()).some(([, value]) => value >= TRIED));
  const weigh = (kind: Kind): [EventName, number][] => {
    const logged = new Set([...events].flatMap(([other, event]) => (other === kind ? [] : [event])));
    const surroundings = surroundingsOf(kind, timeline, events, openMs);
    return ranked(
      new Map(
        [...(own.get(kind) ?? [])]
          .filter(([, value]) => value >= TRIED)
          .map(([event, value]) => [event, value + NEIGHBOURS * fit(event, surroundings, logged)] as const),
      ),
    );
  };
  let totals = settle(order, events, weigh);
  if (swapPairs(order, events, weigh)) totals = settle(order, events, weigh);
  const verdicts = new Map<Kind, Verdict>();
  for (const kind of kinds) {
    const list = totals.get(kind) ?? [];
    const [best, second] = list;
    const margin = best === undefined ? 0 : best[1] - (second?.[1] ?? 0);
    const taken = best !== undefined && best[1] >= TAKEN && margin >= LEAD;
    verdicts.set(kind, {
      event: taken ? best[0] : null,
      score: best?.[1] ?? 0,
      margin,
      nearest: list.slice(0, 2).map(([event]) => event),
    });
  }
  const taken = new Map([...verdicts].flatMap(([kind, { event }]) => (event === null ? [] : [[kind, event] as const])));
  for (const kind of contradicting(taken, timeline)) {
    const verdict = verdicts.get(kind);
    if (verdict !== undefined) verdicts.set(kind, { ...verdict, event: null });
  }
  return { verdicts, stated };
}

type Weigh = (kind: Kind) => [EventName, number][];

/** Gives every kind the event that fits best beside the others as they are, until nothing changes. */
function settle(order: readonly Kind[], events: Map<Kind, EventName>, weigh: Weigh): Map<Kind, [EventName, number][]> {
  let totals = new Map<Kind, [EventName, number][]>();
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let changed = false;
    totals = new Map();
    for (const kind of order) {
      const list = weigh(kind);
      totals.set(kind, list);
      const [best] = list;
      const event = best !== undefined && best[1] >= 1.5 ? best[0] : undefined;
      if (event === events.get(kind)) continue;
      changed = true;
      if (event === undefined) events.delete(kind);
      else events.set(kind, event);
    }
    if (!changed) break;
  }
  return totals;
}

/**
 * Beginning and end of one thing may have settled the wrong way round, each held there by the other: both are turned
 * at once where that fits better. @returns whether any were
 */
function swapPairs(order: readonly Kind[], events: Map<Kind, EventName>, weigh: Weigh): boolean {
  const score = (...kinds: Kind[]): number =>
    kinds.reduce((sum, kind) => sum + (weigh(kind).find(([event]) => event === events.get(kind))?.[1] ?? -9), 0);
  let swapped = false;
  for (const first of order) {
    for (const second of order) {
      const begin = events.get(first);
      const end = events.get(second);
      if (begin === undefined || end === undefined || endOf(begin) !== end) continue;
      const before = score(first, second);
      events.set(first, end).set(second, begin);
      if (score(first, second) > before + 0.1) swapped = true;
      else events.set(first, begin).set(second, end);
    }
  }
  return swapped;
}

function ownEvidence(
  { kind, only, extra }: Candidate,
  stated: readonly StatedExposure[],
  duration: Stated | undefined,
): Map<EventName, number> {
  const evidence = wordEvidence(kind.wording, kind.hints);
  const named = evidence.size > 0;
  const cools = evidence.has('cooler');
  for (const [event, value] of valueEvidence(kind)) {
    const before = evidence.get(event);
    // Values alone tell a saved frame and a cooler; for the rest they only add to words.
    if (event === 'cooler' && !cools) continue;
    if (before !== undefined || value >= 2 || !named) evidence.set(event, (before ?? 0) + value);
  }
  for (const one of stated) {
    if (one.begin === kind) evidence.set('exposure-begin', (evidence.get('exposure-begin') ?? 0) + STATED);
    if (one.end === kind) evidence.set('exposure-end', (evidence.get('exposure-end') ?? 0) + STATED / 2);
  }
  for (const [event, value] of extra ?? []) evidence.set(event, (evidence.get(event) ?? 0) + value);
  // A cooler has two temperatures: what is asked for, and what is.
  if (kind.slots.filter(({ type }) => type === 'number').length < 2) evidence.delete('cooler');
  if (kind.slots.some(isTook)) {
    for (const [event, value] of evidence) {
      if (beginOf(event) !== undefined) evidence.set(event, value + TOOK);
      else if (endOf(event) !== undefined) evidence.set(event, value - TOOK);
    }
  }
  if (duration !== undefined) {
    const weight = duration === 'past' ? PASSED : -PASSED;
    for (const [event, value] of evidence) {
      if (beginOf(event) !== undefined) evidence.set(event, value + weight);
      else if (endOf(event) !== undefined) evidence.set(event, value - weight);
    }
  }
  if (only !== undefined) for (const event of evidence.keys()) if (!only.includes(event)) evidence.delete(event);
  return evidence;
}

function hasFile(kind: Kind): boolean {
  return kind.slots.some(({ type }) => type === 'file');
}

function secondsOpen(stated: readonly StatedExposure[]): number {
  const values = stated.flatMap(({ seconds, unitSeconds }) =>
    seconds.values.map((value) => numberIn(value) * unitSeconds),
  );
  return values.length === 0 ? 600 : Math.max(...values);
}

function ranked(evidence: ReadonlyMap<EventName, number>): [EventName, number][] {
  return [...evidence].sort((a, b) => b[1] - a[1]);
}
