import { endOf, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { NightFit } from './night-fit.js';
import { partsOfCycles, type Sequence } from './sequences.js';

/** Weight of how well a kind fits into the night, against its words and values. */
const FIT = 2.2;
/** Sweeps over all kinds; hardly a log needs more than three. */
const SWEEPS = 6;
/** What a kind must be worth to be taken for anything. */
const WORTH = 1.5;
const GAIN = 1e-6;

/** A kind, what its words and values speak for, and what it cannot be. */
export interface Evidence {
  readonly kind: Kind;
  readonly own: ReadonlyMap<EventName, number>;
  /** What events that its words do not name are worth on it before the night is asked; `null`: none is tried. */
  readonly prior: ReadonlyMap<EventName, number> | null;
  readonly only: readonly EventName[] | undefined;
}

/** The events of a kind by how much better each makes the night than leaving the kind out, best first. */
export type Ranking = readonly (readonly [EventName, number])[];

/** What a kind may be, and how well the best of it fits among the other kinds as they are taken, −0.8 to 1. */
export interface Decoded {
  readonly ranking: Ranking;
  readonly fit: number;
  /** How much worse the night is at least when a whole sequence is taken for another, this kind with it. */
  readonly rival: number;
}

/**
 * Finds what each kind of line is: the events by which all of them together make the most sensible night, in which
 * words and values count as far as they go. Starts from the words and changes one kind at a time, or turns two.
 */
export function decode(
  evidence: readonly Evidence[],
  night: NightFit,
  sequences: readonly Sequence[] = [],
): Map<Kind, Decoded> {
  const labels: (EventName | null)[] = evidence.map(({ own }) => {
    const [best] = [...own].sort((a, b) => b[1] - a[1]);
    return best !== undefined && best[1] >= 2 ? best[0] : null;
  });
  // Many lines say more than few, though not as much more: they are alike.
  const weights = evidence.map(({ kind }) => Math.sqrt(Math.log2(1 + kind.count)));
  // Sweeps come back to the same nights: each is weighed once.
  const weighed = new Map<string, number>();
  const worth = (): number => {
    const key = labels.join();
    const known = weighed.get(key);
    if (known !== undefined) return known;
    const fits = night.of(labels);
    const value = labels.reduce(
      (sum, label, i) =>
        sum +
        (label === null ? 0 : (weights[i] ?? 1) * (worthBefore(evidence[i], label) + FIT * (fits[i] ?? 0) - WORTH)),
      0,
    );
    weighed.set(key, value);
    return value;
  };
  const tried = evidence.map(candidates);
  const order = [...evidence.keys()].sort((a, b) => strength(evidence[b]) - strength(evidence[a]));
  let best = worth();
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const before = best;
    for (const i of order) best = improve(labels, i, tried[i] ?? [], best, worth);
    best = turn(labels, best, worth);
    best = inSequence(labels, sequences, tried, best, worth);
    if (best < before + GAIN) break;
  }
  const rivals = rivalsOf(labels, sequences, tried, best, worth);
  return new Map(
    evidence.map(({ kind }, i): [Kind, Decoded] => {
      const taken = labels[i] ?? null;
      labels[i] = null;
      const without = worth();
      const ranking = (tried[i] ?? [])
        .map((event) => {
          labels[i] = event;
          return [event, (worth() - without) / (weights[i] ?? 1)] as const;
        })
        .sort((a, b) => b[1] - a[1]);
      labels[i] = ranking[0]?.[0] ?? null;
      const fit = night.of(labels)[i] ?? 0;
      labels[i] = taken;
      return [kind, { ranking, fit, rival: (rivals.get(i) ?? Infinity) / (weights[i] ?? 1) }];
    }),
  );
}

function worthBefore(evidence: Evidence | undefined, event: EventName): number {
  return Math.max(evidence?.own.get(event) ?? -Infinity, evidence?.prior?.get(event) ?? -Infinity);
}

function candidates({ own, prior, only }: Evidence): EventName[] {
  const all = new Set<EventName>([...own].filter(([, value]) => value > 0).map(([event]) => event));
  for (const event of prior?.keys() ?? []) all.add(event);
  return [...all].filter((event) => only === undefined || only.includes(event));
}

function strength(evidence: Evidence | undefined): number {
  return Math.max(0, ...(evidence?.own.values() ?? []));
}

/** Gives one kind the event that makes the night best, or none. @returns how good the night is then */
function improve(
  labels: (EventName | null)[],
  i: number,
  tried: readonly EventName[],
  now: number,
  worth: () => number,
): number {
  let best = now;
  let taken = labels[i] ?? null;
  for (const event of [null, ...tried]) {
    if (event === taken) continue;
    labels[i] = event;
    const value = worth();
    if (value > best + GAIN) [best, taken] = [value, event];
  }
  labels[i] = taken;
  return best;
}

/** The ways to take a whole sequence for a part of what a night does in this order. */
function* assignments(
  sequence: Sequence,
  tried: readonly (readonly EventName[])[],
): Generator<readonly (readonly [i: number, event: EventName])[]> {
  for (const events of partsOfCycles(sequence.length)) {
    const steps = sequence.flatMap((group, nth) =>
      events.slice(nth, nth + 1).flatMap((event) => group.map((i) => [i, event] as const)),
    );
    if (steps.every(([i, event]) => tried[i]?.includes(event))) yield steps;
  }
}

/** Takes kinds that follow each other for what a night does in such an order: each alone would make no sense. */
function inSequence(
  labels: (EventName | null)[],
  sequences: readonly Sequence[],
  tried: readonly (readonly EventName[])[],
  now: number,
  worth: () => number,
): number {
  let best = now;
  for (const sequence of sequences) {
    let taken = labels.slice();
    for (const steps of assignments(sequence, tried)) {
      const before = labels.slice();
      for (const [i, event] of steps) labels[i] = event;
      const value = worth();
      if (value > best + GAIN) [best, taken] = [value, labels.slice()];
      before.forEach((label, i) => (labels[i] = label));
    }
    taken.forEach((label, i) => (labels[i] = label));
  }
  return best;
}

/** How much worse the nights are in which sequences are taken for others, by the kinds that are others in them. */
function rivalsOf(
  labels: (EventName | null)[],
  sequences: readonly Sequence[],
  tried: readonly (readonly EventName[])[],
  best: number,
  worth: () => number,
): Map<number, number> {
  const rivals = new Map<number, number>();
  const own = labels.slice();
  for (const sequence of sequences) {
    for (const steps of assignments(sequence, tried)) {
      const others = steps.filter(([i, event]) => own[i] !== null && own[i] !== event);
      if (others.length === 0) continue;
      for (const [i, event] of steps) labels[i] = event;
      const gap = best - worth();
      for (const [i] of others) rivals.set(i, Math.min(rivals.get(i) ?? Infinity, gap));
      own.forEach((label, i) => (labels[i] = label));
    }
  }
  return rivals;
}

/** Turns beginning and end of one thing where that makes a better night: each may have held the other in its place. */
function turn(labels: (EventName | null)[], now: number, worth: () => number): number {
  let best = now;
  for (let i = 0; i < labels.length; i++) {
    for (let k = 0; k < labels.length; k++) {
      const begin = labels[i] ?? null;
      const end = labels[k] ?? null;
      if (begin === null || end === null || endOf(begin) !== end) continue;
      labels[i] = end;
      labels[k] = begin;
      const value = worth();
      if (value > best + GAIN) best = value;
      else [labels[i], labels[k]] = [begin, end];
    }
  }
  return best;
}
