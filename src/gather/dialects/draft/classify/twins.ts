import { isOfSeconds, lengthMs } from '../lengths.js';
import type { Kind } from '../kinds/kind.js';
import { isTelling } from '../lexicon/said.js';
import type { Occurrence } from './occurrences.js';
import type { StatedExposure } from './structure.js';

/** Two kinds whose lines say the same of two trains. */
export type Twins = readonly [Kind, Kind];

/** As many kinds must come in pairs for the words that tell them apart to be names. */
const MIN_PAIRS = 3;
/** More kinds than these are not compared. */
const MAX_KINDS = 150;
/** Exposures of two trains are open together, those of one come after each other. */
const TOGETHER = 0.4;
const SLACK_MS = 5000;
const NAME = /^[\p{L}\p{N}_-]+$/u;

/** The words of a text; Chinese characters stand alone, since a name may be one of them. */
export function wordsIn(text: string): string[] {
  return text.match(/\p{Script=Han}|(?:(?!\p{Script=Han})[\p{L}\p{N}_-]){2,}|[^\s\p{L}\p{N}]|\p{L}|\p{N}+/gu) ?? [];
}

/** By what names are compared: a sentence begins with a capital letter, whatever name stands there. */
export function nameKey(word: string): string {
  return word.toLowerCase();
}

/**
 * The names of two trains by the kinds that come twice, alike but for one word: `heron: shutter open …` and
 * `wren: shutter open …`. What begins and what ends may look the same; it is told by exposures that are open together.
 *
 * @param stated exposures and what closes them on time: no twins
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

/** The kinds that say the same once the names of the trains are left out. */
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

/** Whether two kinds say the same but for one word, and their values are alike: the word may be a train's name. */
export function isTwin(a: Kind, b: Kind): boolean {
  if (formOf(a) !== formOf(b)) return false;
  const [own, other] = [wordsIn(a.wording), wordsIn(b.wording)];
  // `heron-cam-1` and `wren-cam-1` are names, whatever they hold.
  const withoutNames = (words: readonly string[]): string =>
    words.map((word) => (/^\p{L}+[-_.]/u.test(word) ? word.replace(/^\p{L}+/u, '') : word)).join(' ');
  return difference(own, other) !== null || withoutNames(own) === withoutNames(other);
}

function formOf({ slots }: Kind): string {
  return slots.map(({ path, type }) => `${path ?? ''} ${type}`).join('\0');
}

/**
 * The one word in which two texts differ, however often; nothing where they differ in more, or in what tells kinds
 * apart.
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

/** Whether the one opens a shutter while the other's stated seconds are not over. */
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
