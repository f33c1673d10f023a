import type { Kind, Slot } from '../kinds/kind.js';
import { saysMotion } from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { isLevel } from '../kinds/levels.js';
import type { Stated } from './durations.js';
import type { Occurrence } from './occurrences.js';
import type { StatedExposure } from './structure.js';
import { namedIn, partsOf } from './named-in.js';
import { type Opening, openingsAsked, openingsBefore, openingsFromRows, openingsOf } from './openings.js';
import { nameKey, twinNames, wordsIn } from './twins.js';

/** Exposures of one train may touch, but not overlap by more than this. */
const SLACK_MS = 2000;
/** An aborted exposure seems to overlap the next. */
const OVERLAPPING = 0.2;
const CLEAN = 0.1;
/** Minimum share of the exposures per train; all trains together take nearly all of them. */
const SHARE = 0.12;
const COVERED = 0.95;
const MAX_NAMES = 60;
const MAX_TRAINS = 3;

/** Which train each line is about, in a log of several. */
export interface Trains {
  /** The names as written in the log. */
  readonly names: readonly string[];
  /** The train of a kind's nth line: the index of its name, −1 if the line names none. */
  of(kind: Kind, nth: number): number;
  /** The slot that holds the name, if one does. */
  slotOf(kind: Kind): Slot | null;
  /** The name in every line of the kind. */
  nameOf(kind: Kind): string | null;
}

/**
 * Distinguishes the trains of a log without knowing their names: where exposures overlap, finds the words that
 * partition them so that none do. `null` for a log of one train.
 *
 * @param rowsMs durations of kinds whose rows state both ends
 */
export function trainsIn(
  stated: readonly StatedExposure[],
  kinds: readonly Kind[],
  timeline: readonly Occurrence[],
  durations: ReadonlyMap<Kind, Stated> = new Map(),
  cameras: readonly string[] | null = null,
  rowsMs: ReadonlyMap<Kind, readonly number[]> = new Map(),
): Trains | null {
  const before = kinds.flatMap((kind) => openingsBefore(kind, durations.get(kind) === 'past'));
  const names =
    namesOfMost(stated) ??
    namesByOverlap(before) ??
    namesByOverlap(kinds.flatMap((kind) => openingsFromRows(kind, rowsMs.get(kind)))) ??
    namesByOverlap(kinds.flatMap((kind) => (durations.get(kind) === 'past' ? [] : openingsAsked(kind)))) ??
    cameras ??
    twinNames(kinds, timeline, stated);
  return names === null ? null : named(names.map((name) => asWritten(name, kinds)));
}

/** A name as most lines write it: at the beginning of a sentence it is capitalised. */
function asWritten(name: string, kinds: readonly Kind[]): string {
  const counts = new Map<string, number>();
  const key = nameKey(name);
  const add = (text: string, count: number): void => {
    for (const word of wordsIn(text)) if (nameKey(word) === key) counts.set(word, (counts.get(word) ?? 0) + count);
  };
  for (const { wording, count, slots } of kinds) {
    add(wording, count);
    for (const { type, values } of slots) if (type === 'text') for (const value of values) add(value, count);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? name;
}

/** Other spans that state a length at their begin, such as settling, are rarer and belong to no train. */
function namesOfMost(stated: readonly StatedExposure[]): readonly string[] | null {
  for (let count = stated.length; count > 0; count--) {
    const found = namesByOverlap(stated.slice(0, count).flatMap(openingsOf));
    if (found !== null) return found;
  }
  return null;
}

function namesByOverlap(unsorted: readonly Opening[]): readonly string[] | null {
  const openings = [...unsorted].sort((a, b) => a.atMs - b.atMs);
  if (openings.length < 8 || overlapping(openings) < OVERLAPPING) return null;
  const own = new Map<string, Opening[]>();
  for (const opening of openings)
    for (const word of new Set(opening.words)) own.set(word, [...(own.get(word) ?? []), opening]);
  const clean = [...own]
    .filter(([, list]) => list.length >= SHARE * openings.length && overlapping(withoutRetries(list)) <= CLEAN)
    // A line may state the length at the end as well: `begins` and `done` are not trains.
    .filter(([name]) => /[\p{L}\d]/u.test(name) && !saysMotion(name) && !isLevel(name))
    .slice(0, MAX_NAMES);
  for (let size = 2; size <= MAX_TRAINS; size++) {
    const found = partition(clean, openings.length, size);
    if (found !== null) return found;
  }
  return null;
}

/** A camera that does not open is retried within this time, and rarely, ms. */
const RETRIED_MS = 60_000;
const RETRIED = 0.25;

/** Exposures without those that never started: the same request is repeated right after them. */
function withoutRetries(openings: readonly Opening[]): readonly Opening[] {
  const kept = openings.filter(({ atMs, lastsMs }, i) => {
    const next = openings[i + 1];
    return next === undefined || next.lastsMs !== lastsMs || next.atMs - atMs > Math.min(RETRIED_MS, lastsMs / 2);
  });
  return kept.length >= (1 - RETRIED) * openings.length ? kept : openings;
}

/** Fraction of exposures that begin before the previous one is over. */
function overlapping(openings: readonly Opening[]): number {
  const hits = openings.filter((opening, i) => {
    const before = openings[i - 1];
    return before !== undefined && opening.atMs < before.atMs + before.lastsMs - SLACK_MS;
  });
  return hits.length / Math.max(1, openings.length);
}

/** Sets of this many names that partition all openings. */
function partition(
  names: readonly (readonly [string, readonly Opening[]])[],
  total: number,
  size: number,
  taken: readonly string[] = [],
  covered: ReadonlySet<Opening> = new Set(),
): readonly string[] | null {
  if (size === 0) return covered.size >= COVERED * total && areAlike(covered, taken) ? taken : null;
  for (const [i, [name, list]] of names.entries()) {
    if (list.some((opening) => covered.has(opening))) continue;
    const found = partition(names.slice(i + 1), total, size - 1, [...taken, name], new Set([...covered, ...list]));
    if (found !== null) return found;
  }
  return null;
}

/** Minimum overlap in words between lines about different trains. */
const ALIKE = 0.5;
const COMPARED = 12;

function areAlike(openings: ReadonlySet<Opening>, names: readonly string[]): boolean {
  const [first, ...others] = names.map((name) =>
    [...openings]
      .filter(({ words }) => words.includes(name))
      .slice(0, COMPARED)
      .map(({ words }) => new Set(words.filter((word) => !names.includes(word)))),
  );
  // Rows of a table may name nothing but the train; `frame` and `stored` alone are no trains.
  const areNames = names.every((name) => wordEvidence(name).size === 0);
  const isAlike = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
    a.size + b.size === 0 ? areNames : sharedShare(a, b) >= ALIKE;
  return first === undefined || others.every((other) => other.some((b) => first.some((a) => isAlike(a, b))));
}

function sharedShare(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  const shared = [...a].filter((word) => b.has(word)).length;
  return shared / Math.max(1, a.size + b.size - shared);
}

/** A device named after its train, and how many of them a train has. */
const DEVICE = /^[\p{L}\p{N}_'’-]+$/u;
const MOST_PARTS = 6;

function named(names: readonly string[]): Trains {
  const keys = names.map(nameKey);
  const indexIn = namedIn(keys);
  const partOf = partsOf(keys);
  const inPart = (value: string): number => (DEVICE.test(value) ? partOf(value) : -1);
  const slots = new Map<Kind, Slot | null>();
  const slotOf = (kind: Kind): Slot | null => {
    const known = slots.get(kind);
    if (known !== undefined) return known;
    const found =
      kind.slots.find(({ values }) => values.length > 0 && values.every((value) => keys.includes(nameKey(value)))) ??
      kind.slots.find(
        ({ type, values }) =>
          type === 'text' && values.length <= MOST_PARTS * keys.length && values.every((value) => inPart(value) >= 0),
      ) ??
      null;
    slots.set(kind, found);
    return found;
  };
  const nameOf = (kind: Kind): string | null => names[indexIn(kind.wording)] ?? null;
  return {
    names,
    slotOf,
    nameOf,
    of: (kind, nth) => {
      const slot = slotOf(kind);
      if (slot === null) return indexIn(kind.wording);
      const value = slot.perLine[nth] ?? '';
      const whole = keys.indexOf(nameKey(value));
      return whole >= 0 ? whole : inPart(value);
    },
  };
}
