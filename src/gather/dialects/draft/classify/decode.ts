import { EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { END_OF, eventOf, labelOf, type Labels, UNTAKEN } from './labels.js';
import type { NightFit } from './night-fit.js';
import { partsOfCycles, type Sequence } from './sequences.js';

/** Weight of the fit with the timeline, relative to words and values. */
const FIT = 2.2;
/** Sweeps over all kinds; logs rarely need more than three. */
const SWEEPS = 6;
/** Minimum score of a kind. */
const WORTH = 1.5;
const GAIN = 1e-6;

/** A kind, the evidence of its words and values, and the events it cannot be. */
export interface Evidence {
  readonly kind: Kind;
  readonly own: ReadonlyMap<EventName, number>;
  /** Prior weights of events that its words do not name; `null`: none is tried. */
  readonly prior: ReadonlyMap<EventName, number> | null;
  readonly only: readonly EventName[] | undefined;
}

/** The events of a kind by how much each improves the timeline compared with leaving the kind out, best first. */
export type Ranking = readonly (readonly [EventName, number])[];

/** The candidates of a kind, and how well the best of them fits among the other kinds as classified, −0.8 to 1. */
export interface Decoded {
  readonly ranking: Ranking;
  readonly fit: number;
  /** Smallest loss of score when a whole sequence that includes this kind is classified differently. */
  readonly rival: number;
}

/**
 * Finds the events of all kinds that together make the most plausible timeline, weighted with words and values. Starts
 * from the words and changes one kind at a time, or swaps two.
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
  // More lines weigh more, but less than proportionally: they are similar.
  const weights = evidence.map(({ kind }) => Math.sqrt(Math.log2(1 + kind.count)));
  const before = evidence.map(worthBefore);
  // Sweeps revisit the same timelines: each score is cached.
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
      // Most kinds get their best fit: that timeline is scored.
      labels[i] = labelOf(ranking[0]?.[0]);
      const fit = (labels[i] === taken ? settled : night.of(labels))[i] ?? 0;
      labels[i] = taken;
      return [kind, { ranking, fit, rival: (rivals.get(i) ?? Infinity) / (weights[i] ?? 1) }];
    }),
  );
}

/** The prior weight of each event for a kind, by label. */
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

/** Gives one kind the event, or none, that maximises the score. @returns the new score */
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

/** A joint classification of the kinds of a sequence: their indices, and the label of each. */
type Assignment = readonly (readonly [i: number, label: number])[];

/** The ways to match a whole sequence to part of the usual order of a night. */
function assignments(sequence: Sequence, tried: readonly (readonly number[])[]): Assignment[] {
  return partsOfCycles(sequence.length).flatMap((events): Assignment[] => {
    const labels = events.map(labelOf);
    const mayBe = sequence.every((group, nth) => group.every((i) => tried[i]?.includes(labels[nth] ?? UNTAKEN)));
    return mayBe ? [sequence.flatMap((group, nth) => group.map((i) => [i, labels[nth] ?? UNTAKEN] as const))] : [];
  });
}

/** Classifies consecutive kinds jointly as a usual sequence of a night: individually each would be implausible. */
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

/** Loss of score under alternative classifications of sequences, for each kind that they change. */
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

/** Swaps begin and end of a span where that improves the score: each may have blocked the other. */
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
