import { EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { END_OF, eventOf, labelOf, type Labels, UNTAKEN } from './labels.js';
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
  const labels = Uint8Array.from(
    evidence.map(({ own, only }) => {
      const [best] = [...own].filter(([event]) => only?.includes(event) !== false).sort((a, b) => b[1] - a[1]);
      return best !== undefined && best[1] >= 2 ? labelOf(best[0]) : UNTAKEN;
    }),
  );
  const bytes = Buffer.from(labels.buffer);
  // Many lines say more than few, though not as much more: they are alike.
  const weights = evidence.map(({ kind }) => Math.sqrt(Math.log2(1 + kind.count)));
  const before = evidence.map(worthBefore);
  // Sweeps come back to the same nights: each is weighed once.
  const weighed = new Map<string, number>();
  const worth = (): number => {
    const key = bytes.toString('latin1');
    const known = weighed.get(key);
    if (known !== undefined) return known;
    const fits = night.of(labels);
    let value = 0;
    for (let i = 0; i < labels.length; i++) {
      const label = labels[i] ?? UNTAKEN;
      if (label !== UNTAKEN)
        value += (weights[i] ?? 1) * ((before[i]?.[label] ?? -Infinity) + FIT * (fits[i] ?? 0) - WORTH);
    }
    weighed.set(key, value);
    return value;
  };
  const tried = evidence.map(candidates);
  const ways = sequences.map((sequence) => assignments(sequence, tried));
  const order = [...evidence.keys()].sort((a, b) => strength(evidence[b]) - strength(evidence[a]));
  let best = worth();
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const last = best;
    for (const i of order) best = improve(labels, i, tried[i] ?? [], best, worth);
    best = turn(labels, best, worth);
    best = inSequence(labels, ways, best, worth);
    if (best < last + GAIN) break;
  }
  const rivals = rivalsOf(labels, ways, best, worth);
  const settled = night.of(labels).slice();
  return new Map(
    evidence.map(({ kind }, i): [Kind, Decoded] => {
      const taken = labels[i] ?? UNTAKEN;
      labels[i] = UNTAKEN;
      const without = worth();
      const ranking = (tried[i] ?? [])
        .flatMap((label): (readonly [EventName, number])[] => {
          labels[i] = label;
          const event = eventOf(label);
          return event === null ? [] : [[event, (worth() - without) / (weights[i] ?? 1)]];
        })
        .sort((a, b) => b[1] - a[1]);
      // Most kinds are taken for what fits best: that night is weighed.
      labels[i] = labelOf(ranking[0]?.[0]);
      const fit = (labels[i] === taken ? settled : night.of(labels))[i] ?? 0;
      labels[i] = taken;
      return [kind, { ranking, fit, rival: (rivals.get(i) ?? Infinity) / (weights[i] ?? 1) }];
    }),
  );
}

/** What each event is worth on a kind before the night is asked, by label. */
function worthBefore({ own, prior }: Evidence): readonly number[] {
  return [
    -Infinity,
    ...EVENT_NAMES.map((event) => Math.max(own.get(event) ?? -Infinity, prior?.get(event) ?? -Infinity)),
  ];
}

function candidates({ own, prior, only }: Evidence): number[] {
  const all = new Set<EventName>([...own].filter(([, value]) => value > 0).map(([event]) => event));
  for (const event of prior?.keys() ?? []) all.add(event);
  return [...all].filter((event) => only === undefined || only.includes(event)).map(labelOf);
}

function strength(evidence: Evidence | undefined): number {
  return Math.max(0, ...(evidence?.own.values() ?? []));
}

/** Gives one kind the event that makes the night best, or none. @returns how good the night is then */
function improve(labels: Labels, i: number, tried: readonly number[], now: number, worth: () => number): number {
  let best = now;
  let taken = labels[i] ?? UNTAKEN;
  for (const label of [UNTAKEN, ...tried]) {
    if (label === taken) continue;
    labels[i] = label;
    const value = worth();
    if (value > best + GAIN) [best, taken] = [value, label];
  }
  labels[i] = taken;
  return best;
}

/** What the kinds of a sequence are taken for together: their indices, and the label of each. */
type Assignment = readonly (readonly [i: number, label: number])[];

/** The ways to take a whole sequence for a part of what a night does in this order. */
function assignments(sequence: Sequence, tried: readonly (readonly number[])[]): Assignment[] {
  return partsOfCycles(sequence.length).flatMap((events): Assignment[] => {
    const labels = events.map(labelOf);
    const mayBe = sequence.every((group, nth) => group.every((i) => tried[i]?.includes(labels[nth] ?? UNTAKEN)));
    return mayBe ? [sequence.flatMap((group, nth) => group.map((i) => [i, labels[nth] ?? UNTAKEN] as const))] : [];
  });
}

/** Takes kinds that follow each other for what a night does in such an order: each alone would make no sense. */
function inSequence(
  labels: Labels,
  sequences: readonly (readonly Assignment[])[],
  now: number,
  worth: () => number,
): number {
  let best = now;
  for (const ways of sequences) {
    const before = labels.slice();
    let taken = before;
    for (const steps of ways) {
      for (const [i, label] of steps) labels[i] = label;
      const value = worth();
      if (value > best + GAIN) [best, taken] = [value, labels.slice()];
      labels.set(before);
    }
    labels.set(taken);
  }
  return best;
}

/** How much worse the nights are in which sequences are taken for others, by the kinds that are others in them. */
function rivalsOf(
  labels: Labels,
  sequences: readonly (readonly Assignment[])[],
  best: number,
  worth: () => number,
): Map<number, number> {
  const rivals = new Map<number, number>();
  const own = labels.slice();
  for (const steps of sequences.flat()) {
    const others = steps.filter(([i, label]) => own[i] !== UNTAKEN && own[i] !== label);
    if (others.length === 0) continue;
    for (const [i, label] of steps) labels[i] = label;
    const gap = best - worth();
    for (const [i] of others) rivals.set(i, Math.min(rivals.get(i) ?? Infinity, gap));
    labels.set(own);
  }
  return rivals;
}

/** Turns beginning and end of one thing where that makes a better night: each may have held the other in its place. */
function turn(labels: Labels, now: number, worth: () => number): number {
  let best = now;
  for (let i = 0; i < labels.length; i++) {
    for (let k = 0; k < labels.length; k++) {
      const begin = labels[i] ?? UNTAKEN;
      const end = labels[k] ?? UNTAKEN;
      if (end === UNTAKEN || END_OF[begin] !== end) continue;
      labels[i] = end;
      labels[k] = begin;
      const value = worth();
      if (value > best + GAIN) best = value;
      else [labels[i], labels[k]] = [begin, end];
    }
  }
  return best;
}
