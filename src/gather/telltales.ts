/** Header values that distinguish trains: which frames share them, and the minimal set. */
import { groupBy, type HeaderFrame } from '../model/index.js';
import { overlapsOf } from './self-overlap.js';

/** Header keywords that distinguish trains, and the fact each one fills. */
const TELLTALES = [
  ['TELESCOP', 'telescope'],
  ['INSTRUME', 'instrument'],
  ['FOCALLEN', 'focalLengthMm'],
] as const;

/** Keywords that distinguish trains. */
export const TELLTALE_KEYWORDS: readonly string[] = TELLTALES.map(([keyword]) => keyword);

/** Frames that lack a keyword must agree in this many of the others to be grouped with those that have it. */
const FEWEST_ALIKE = 2;

type Telltale = (typeof TELLTALES)[number][0];
type Values = Readonly<Partial<Record<Telltale, string | number>>>;

/** Frames that state the same. */
export interface Marked {
  readonly frames: readonly HeaderFrame[];
  readonly values: Values;
}

/** Frames by the telescope, camera and focal length in their headers, and the keywords that distinguish them. */
export function markedGroups(frames: readonly HeaderFrame[]): {
  readonly groups: readonly Marked[];
  readonly marks: readonly Telltale[];
} {
  const groups = [...groupBy(frames, (f) => keyOf(valuesOf(f))).values()].flatMap((members): Marked[] =>
    members.slice(0, 1).map((first) => ({ frames: members, values: valuesOf(first) })),
  );
  const joined = joinIncomplete(groups);
  // Frames without any (a truncated header) say nothing about the others' keywords.
  const stating = joined.filter((g) => Object.keys(g.values).length > 0);
  // A keyword that some frames of a train lack cannot identify the train in a rig file.
  const marks = sufficientMarks(
    joined.map(({ frames: own, values }) => ({
      frames: own,
      values: only(
        values,
        TELLTALE_KEYWORDS.filter((keyword) => stating.every((g) => keyword in g.values)),
      ),
    })),
  );
  return joined.length < groups.length && distinct(joined, marks) === joined.length
    ? { groups: joined, marks }
    : { groups, marks: sufficientMarks(groups) };
}

/**
 * Drops groups that are not trains: a few frames whose headers lack a distinction that the others have, at most as many
 * as the smallest train. They belong to none, and are reported as such when frames are assigned.
 */
export function withoutOdd(groups: readonly Marked[], marks: readonly Telltale[]): readonly Marked[] {
  const isWhole = ({ values }: Marked): boolean => marks.every((mark) => values[mark] !== undefined);
  const smallest = Math.min(...groups.filter(isWhole).map((g) => g.frames.length));
  return groups.filter((g) => isWhole(g) || smallest === Infinity || g.frames.length > smallest);
}

function valuesOf(frame: HeaderFrame): Values {
  return Object.fromEntries(
    TELLTALES.flatMap(([keyword, fact]) => {
      const value = frame[fact];
      return value === undefined || value === '' ? [] : [[keyword, typeof value === 'number' ? value : value.trim()]];
    }),
  );
}

function keyOf(values: Values): string {
  return JSON.stringify(values).toLowerCase();
}

/**
 * Frames whose headers lack a value, and agree in the others with those of one train only, belong to that train: a
 * second program on the same computer. Frames that overlap it in time are another's.
 */
function joinIncomplete(groups: readonly Marked[]): readonly Marked[] {
  const joined = new Map<Marked, Marked[]>();
  for (const group of groups) {
    const keywords = Object.keys(group.values);
    const fuller = groups.filter(
      (g) => Object.keys(g.values).length > keywords.length && keyOf(only(g.values, keywords)) === keyOf(group.values),
    );
    const [train] = fuller;
    if (!train || fuller.length > 1 || keywords.length < FEWEST_ALIKE) continue;
    if (overlapsOf([...train.frames, ...group.frames]).length > 0) continue;
    joined.set(train, [...(joined.get(train) ?? []), group]);
  }
  const gone = new Set([...joined.values()].flat());
  return groups
    .filter((g) => !gone.has(g))
    .map((train) =>
      (joined.get(train) ?? []).reduce(
        (all, part) => ({
          frames: [...all.frames, ...part.frames],
          values: only(all.values, Object.keys(part.values)),
        }),
        train,
      ),
    );
}

function only(values: Values, keywords: readonly string[]): Values {
  return Object.fromEntries(Object.entries(values).filter(([keyword]) => keywords.includes(keyword)));
}

function distinct(groups: readonly Marked[], marks: readonly Telltale[]): number {
  return new Set(groups.map((g) => JSON.stringify(marks.map((m) => g.values[m] ?? null)))).size;
}

/** The fewest keywords, in order, that distinguish the groups. With a single group, none. */
function sufficientMarks(groups: readonly Marked[]): Telltale[] {
  const marks: Telltale[] = [];
  for (const [keyword] of TELLTALES) {
    const before = distinct(groups, marks);
    if (before === groups.length) break;
    marks.push(keyword);
    if (distinct(groups, marks) === before) marks.pop();
  }
  return marks;
}
