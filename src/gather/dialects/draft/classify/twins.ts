import { isOfSeconds, lengthMs } from '../lengths.js';
import type { Kind } from '../kinds/kind.js';
import { isTelling } from '../lexicon/said.js';
import type { Occurrence } from './occurrences.js';
import type { StatedExposure } from './structure.js';

/** Two kinds whose lines say the same about two trains. */
export type Twins = readonly [Kind, Kind];

/** Minimum number of pairs before the distinguishing words count as names. */
const MIN_PAIRS = 3;
/** With more kinds than this no comparison is made. */
const MAX_KINDS = 150;
/** Exposures of two trains are open simultaneously; those of one train are sequential. */
const TOGETHER = 0.4;
const SLACK_MS = 5000;
const NAME = /^[\p{L}\p{N}_-]+$/u;

/** The words of a text; each Chinese character is a word, since it may be a name. */
export function wordsIn(text: string): string[] {
  return text.match(/\p{Script=Han}|(?:(?!\p{Script=Han})[\p{L}\p{N}_-]){2,}|[^\s\p{L}\p{N}]|\p{L}|\p{N}+/gu) ?? [];
}

/** The form in which names are compared: any name is capitalised at the beginning of a sentence. */
export function nameKey(word: string): string {
  return word.toLowerCase();
}

/**
 * The names of two trains, derived from kinds that differ in one word only: `heron: shutter open …` and `wren: shutter
 * open …`. Begin and end may look the same; simultaneous open exposures distinguish trains.
 *
 * @param stated exposures and the kinds that close them on time: not twins
 */
export function twinNames(
  kinds: readonly Kind[],
  timeline: readonly Occurrence[],
  stated: readonly StatedExposure[],
): readonly [string, string] | null {
  const pairs = new Map<string, Twins[]>();
  const own = kinds.slice(0, MAX_KINDS).map((kind) => ({ kind, words: wordsIn(kind.wording), form: formOf(kind) }));
  for (const [i, a] of own.entries()) {
    for (const b of own.slice(i + 1)) {
      const differing = a.form === b.form ? difference(a.words, b.words) : null;
      if (differing === null) continue;
      const names = [nameKey(differing[0]), nameKey(differing[1])] as const;
      const sorted = names[0] < names[1];
      const key = (sorted ? names : [names[1], names[0]]).join('\0');
      const twins: Twins = sorted ? [a.kind, b.kind] : [b.kind, a.kind];
      pairs.set(key, [...(pairs.get(key) ?? []), twins]);
    }
  }
  const [best] = [...pairs]
    .filter(
      ([, twins]) =>
        twins.length >= MIN_PAIRS &&
        !twins.some((pair) =>
          stated.some((one) => pair.includes(one.begin) && pair.some((kind) => kind === one.end)),
        ) &&
        twins.some((pair) => openTogether(pair, timeline)),
    )
    .sort((a, b) => b[1].length - a[1].length);
  if (best === undefined) return null;
  const [one = '', other = ''] = best[0].split('\0');
  return [one, other];
}

/** The kinds that are identical once the names of the trains are removed. */
export function twinsOf(kinds: readonly Kind[], names: readonly string[]): Twins[] {
  const known = new Map<string, Kind>();
  const keys = new Set(names.map(nameKey));
  const isName = (word: string): boolean => keys.has(nameKey(word));
  return kinds.flatMap((kind): Twins[] => {
    const words = wordsIn(kind.wording);
    if (!words.some(isName)) return [];
    const key = `${words.map((word) => (isName(word) ? '' : word)).join('\0')}\0${formOf(kind)}`;
    const twin = known.get(key);
    if (twin !== undefined) return [[twin, kind]];
    known.set(key, kind);
    return [];
  });
}

/** Whether two kinds are identical except for one word, with similar values: the word may be a train's name. */
export function isTwin(a: Kind, b: Kind): boolean {
  if (formOf(a) !== formOf(b)) return false;
  const [own, other] = [wordsIn(a.wording), wordsIn(b.wording)];
  // `heron-cam-1` and `wren-cam-1` are names, whatever characters they contain.
  const withoutNames = (words: readonly string[]): string =>
    words.map((word) => (/^\p{L}+[-_.]/u.test(word) ? word.replace(/^\p{L}+/u, '') : word)).join(' ');
  return difference(own, other) !== null || withoutNames(own) === withoutNames(other);
}

function formOf({ slots }: Kind): string {
  return slots.map(({ path, type }) => `${path ?? ''} ${type}`).join('\0');
}

/**
 * The only word in which two texts differ, however often; none if they differ in more, or in what distinguishes kinds.
 */
function difference(a: readonly string[], b: readonly string[]): readonly [string, string] | null {
  if (a.length !== b.length || a.length < 2) return null;
  let found: readonly [string, string] | null = null;
  for (const [i, word] of a.entries()) {
    const other = b[i];
    if (other === undefined || word === other) continue;
    if (found !== null && (found[0] !== word || found[1] !== other)) return null;
    if (!NAME.test(word) || !NAME.test(other) || isTelling(word) || isTelling(other)) return null;
    found = [word, other];
  }
  return found;
}

/** Whether one opens a shutter before the other's stated length is over. */
function openTogether([a, b]: Twins, timeline: readonly Occurrence[]): boolean {
  return isOpenDuring(a, b, timeline) || isOpenDuring(b, a, timeline);
}

function isOpenDuring(kind: Kind, other: Kind, timeline: readonly Occurrence[]): boolean {
  const seconds = kind.slots.find(isOfSeconds);
  if (other.count < MIN_PAIRS || !kind.slots.some(({ type }) => type !== 'number')) return false;
  if (seconds === undefined || kind.count < MIN_PAIRS) return false;
  const begins = timeline.flatMap((one) => (one.kind === other ? [one.atMs] : []));
  let nth = 0;
  let together = 0;
  for (const one of timeline) {
    if (one.kind !== kind) continue;
    const lastsMs = lengthMs(seconds, nth++);
    if (begins.some((atMs) => atMs >= one.atMs && atMs < one.atMs + lastsMs - SLACK_MS)) together++;
  }
  return together >= TOGETHER * Math.max(1, nth);
}
