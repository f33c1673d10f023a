/**
 * A telescope or camera that headers call by another name from some frame on: a new computer, a profile set up anew. It
 * is one train, as long as nothing but the name says otherwise.
 */
import type { HeaderValue } from '../config/index.js';
import { counted, isDatedLight, itemAt, ownValue, type DatedLight, type HeaderFrame } from '../model/index.js';
import { sameCamera } from './begun-exposures.js';
import { overlapsOf, SERIAL_KEYWORDS } from './self-overlap.js';

/** File numbers go on within this, where single files were removed. Common practice, no source. */
const NEXT_NUMBERS = 5;
/** A train beside it that exposes during so many frames of either name is a witness. Common practice, no source. */
const WITNESSED = 3;

/** Frames that headers call one train's. */
export interface NamedGroup {
  readonly frames: readonly HeaderFrame[];
  readonly values: Readonly<Record<string, HeaderValue>>;
}

/** Two groups that are one train: the second follows the first. */
export interface Renaming {
  readonly keyword: 'TELESCOP' | 'INSTRUME';
  readonly names: readonly [string, string];
  readonly frames: readonly [number, number];
}

/** The groups, with those joined whose frames follow each other under two names. */
export function withRenamedJoined<G extends NamedGroup>(
  groups: readonly G[],
): { readonly groups: readonly G[]; readonly renamings: readonly Renaming[] } {
  const renamings: Renaming[] = [];
  let all = [...groups];
  for (let pair = nextPair(all); pair !== null; pair = nextPair(all)) {
    const { earlier, later, renaming } = pair;
    renamings.push(renaming);
    const larger = earlier.frames.length >= later.frames.length ? earlier : later;
    const joined = { ...larger, frames: [...earlier.frames, ...later.frames], values: bothValues(earlier, later) };
    all = all.flatMap((g) => (g === larger ? [joined] : g === earlier || g === later ? [] : [g]));
  }
  return { groups: all, renamings };
}

/** Why frames under two names were taken for one train's. */
export function renamingReason({ keyword, names, frames }: Renaming): string {
  return (
    `headers call one ${keyword === 'TELESCOP' ? 'telescope' : 'camera'} “${names[0]}” in ` +
    `${counted(frames[0], 'light')} and “${names[1]}” in the ${frames[1]} after them, with the same optics and ` +
    `sensor: they are counted as one train. If they are two, give each its own in a rig file, by ` +
    `match: { ${keyword}: … }`
  );
}

function bothValues(a: NamedGroup, b: NamedGroup): NamedGroup['values'] {
  return Object.fromEntries(
    Object.entries(a.values).map(([keyword, value]) => {
      const values = [...new Set([value, ownValue(b.values, keyword) ?? []].flat())];
      return [keyword, values.length === 1 ? itemAt(values, 0) : values];
    }),
  );
}

function nextPair<G extends NamedGroup>(groups: readonly G[]) {
  for (const earlier of groups)
    for (const later of groups) {
      const renaming = earlier === later ? null : renamingOf(earlier, later, groups);
      if (renaming !== null) return { earlier, later, renaming };
    }
  return null;
}

function renamingOf(earlier: NamedGroup, later: NamedGroup, groups: readonly NamedGroup[]): Renaming | null {
  const [before, after] = [earlier, later].map(inOrder);
  const [last, first] = [before?.at(-1), after?.[0]];
  if (!before || !after || !last || !first || last.exposure.endMs > first.exposure.startMs) return null;
  const keyword = otherName(last, first);
  // What is not stated contradicts nothing, and proves nothing.
  if (keyword === null || last.focalLengthMm === undefined || first.focalLengthMm === undefined) return null;
  if (!sameCamera(before, after)) return null;
  const [serial, next] = [serialOf(last), serialOf(first)];
  if (serial !== next) return null;
  const others = groups.filter((g) => g !== earlier && g !== later);
  if (serial === null && !goesOn(last, first) && !isWitnessed(before, after, others)) return null;
  const nameOf = (f: HeaderFrame): string => (keyword === 'TELESCOP' ? f.telescope : f.instrument) ?? 'without a name';
  return { keyword, names: [nameOf(last), nameOf(first)], frames: [before.length, after.length] };
}

function inOrder({ frames }: NamedGroup): readonly DatedLight[] {
  return frames.filter(isDatedLight).sort((a, b) => a.exposure.startMs - b.exposure.startMs);
}

/** The one name in which two headers differ; `null` for none, or both. */
function otherName(a: HeaderFrame, b: HeaderFrame): Renaming['keyword'] | null {
  const isSame = (one: string | undefined, other: string | undefined): boolean =>
    one?.trim().toLowerCase() === other?.trim().toLowerCase();
  const [telescope, camera] = [isSame(a.telescope, b.telescope), isSame(a.instrument, b.instrument)];
  return telescope === camera ? null : telescope ? 'INSTRUME' : 'TELESCOP';
}

function serialOf({ cards }: HeaderFrame): string | null {
  const stated = SERIAL_KEYWORDS.flatMap((keyword) => ownValue(cards, keyword) ?? []);
  return stated.length === 0 ? null : String(stated[0]).trim().toLowerCase();
}

/** Whether the file numbers of the second begin where those of the first end. */
function goesOn(last: HeaderFrame, first: HeaderFrame): boolean {
  const [from, to] = [last, first].map(({ file }) => /(\d+)\D*$/.exec(file.replace(/\.[^./]*(\.(gz|fz))?$/i, ''))?.[1]);
  if (from === undefined || to === undefined) return false;
  const apart = Number(to) - Number(from);
  return apart > 0 && apart <= NEXT_NUMBERS;
}

/** Whether another train exposed beside both: two that take turns would have been beside each other as well. */
function isWitnessed(
  before: readonly DatedLight[],
  after: readonly DatedLight[],
  others: readonly NamedGroup[],
): boolean {
  return others.some((other) =>
    [before, after].every((own) => overlapsOf([...own, ...inOrder(other)]).length >= WITNESSED),
  );
}
