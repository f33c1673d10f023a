import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** Kinds of line, by index, that report the same event in several wordings, or for several trains. */
export type Group = readonly number[];

/** Groups that repeatedly follow each other. */
export type Sequence = readonly Group[];

/** The usual order of events in a night (common practice, no source); logs omit some. */
export const CYCLES: readonly (readonly EventName[])[] = [
  ['exposure-begin', 'exposure-end'],
  ['dither-ready', 'dither-begin', 'dither-end', 'settling-begin', 'settling-end'],
  ['guiding-rest-begin', 'focus-begin', 'focus-end', 'guiding-rest-end', 'settling-begin', 'settling-end'],
  ['guiding-begin', 'settling-begin', 'settling-end'],
  ['filter-begin', 'filter-end'],
  ['filter-begin', 'filter-end', 'focus-begin', 'focus-end'],
  ['slew-begin', 'slew-end', 'centre-begin', 'centre-end', 'guiding-begin'],
  ['guiding-end', 'slew-begin', 'slew-end', 'centre-begin', 'centre-end'],
  ['guiding-end', 'flip-begin', 'flip-end', 'centre-begin', 'centre-end'],
];

const MIN_COUNT = 3;
/** Minimum fraction of lines for which one group directly precedes the other, with only rarer kinds between. */
const FOLLOWED = 0.7;
const MAX_LENGTH = 6;
const MAX_SEQUENCES = 40;

/** The kinds in groups: those that are `alike`, and those that always have the same neighbours. */
export function groupsOf(kinds: readonly Kind[], alike: readonly (readonly [Kind, Kind])[]): Group[] {
  const index = new Map(kinds.map((kind, i) => [kind, i]));
  const root = kinds.map((_, i) => i);
  const find = (i: number): number => (root[i] === i || root[i] === undefined ? i : find(root[i]));
  for (const [a, b] of alike) {
    const i = index.get(a);
    const k = index.get(b);
    if (i !== undefined && k !== undefined) root[find(i)] = find(k);
  }
  const groups = new Map<number, number[]>();
  for (const i of kinds.keys()) groups.set(find(i), [...(groups.get(find(i)) ?? []), i]);
  return [...groups.values()];
}

/**
 * The groups that follow each other in a fixed order, in runs of two or more: a dither with its settling, a refocus
 * with the guiding pause around it.
 */
export function sequencesOf(
  groups: readonly Group[],
  kinds: readonly Kind[],
  timeline: readonly Occurrence[],
): Sequence[] {
  const indexOf = new Map(kinds.map((kind, i) => [kind, i]));
  const groupOf = new Map(groups.flatMap((group, g) => group.map((i) => [i, g] as const)));
  const counts = groups.map(() => 0);
  const steps = timeline.flatMap(({ kind }) => {
    const i = indexOf.get(kind);
    const g = i === undefined ? undefined : groupOf.get(i);
    if (g !== undefined) counts[g] = (counts[g] ?? 0) + 1;
    return g ?? [];
  });
  const next = followers(steps, counts);
  const sequences: Sequence[] = [];
  for (const first of groups.keys()) {
    const walk = (path: readonly number[]): void => {
      if (path.length >= 2) sequences.push(path.flatMap((g) => [groups[g] ?? []]));
      if (path.length >= MAX_LENGTH) return;
      for (const g of next.get(path[path.length - 1] ?? -1) ?? []) if (!path.includes(g)) walk([...path, g]);
    };
    if ((counts[first] ?? 0) >= MIN_COUNT) walk([first]);
  }
  // Longer runs are less ambiguous: they come first.
  return sequences.sort((a, b) => b.length - a.length).slice(0, MAX_SEQUENCES);
}

/** For each group, those that follow it before it recurs, equally often, with nothing as frequent between. */
function followers(steps: readonly number[], counts: readonly number[]): Map<number, number[]> {
  const follows = new Map<string, number>();
  for (const [at, g] of steps.entries()) {
    const own = counts[g] ?? 0;
    if (own < MIN_COUNT) continue;
    for (let k = at + 1; k < steps.length && k < at + 12; k++) {
      const other = steps[k] ?? -1;
      const count = counts[other] ?? 0;
      if (other === g) break;
      if (count < 0.5 * own) continue;
      if (count <= 2 * own) follows.set(`${g} ${other}`, (follows.get(`${g} ${other}`) ?? 0) + 1);
      break;
    }
  }
  const next = new Map<number, number[]>();
  for (const [key, count] of follows) {
    const [a = -1, b = -1] = key.split(' ').map(Number);
    if (count >= FOLLOWED * Math.max(counts[a] ?? 0, counts[b] ?? 0)) next.set(a, [...(next.get(a) ?? []), b]);
  }
  return next;
}

/** The parts of the cycles that may match a run of this many groups, in order. */
export function partsOfCycles(length: number): readonly (readonly EventName[])[] {
  const known = PARTS.get(length);
  if (known !== undefined) return known;
  const parts = new Map<string, readonly EventName[]>();
  for (const cycle of CYCLES) {
    const choose = (from: number, taken: readonly EventName[]): void => {
      if (taken.length === length) parts.set(taken.join(' '), taken);
      else for (let i = from; i < cycle.length; i++) choose(i + 1, [...taken, ...cycle.slice(i, i + 1)]);
    };
    choose(0, []);
  }
  const found = [...parts.values()];
  PARTS.set(length, found);
  return found;
}

const PARTS = new Map<number, readonly (readonly EventName[])[]>();
