import { nameKey, wordsIn } from './twins.js';

/**
 * Index of the name that occurs in a text; −1 if none or several do: a line that names both is about what they share.
 *
 * @param keys the names in the form used for comparison
 */
export function namedIn(keys: readonly string[]): (text: string) => number {
  const areDistinct = new Set(keys.map(([initial]) => initial)).size === keys.length;
  const partOf = partsOf(keys);
  return (text) => {
    const words = wordsIn(text).map(nameKey);
    const whole = keys.flatMap((name, i) => (words.includes(name) ? [i] : []));
    const parts = whole.length > 0 ? whole : [...new Set(words.map(partOf).filter((i) => i >= 0))];
    // `H-FILT` is the filter of `HERON`.
    const found =
      parts.length > 0 || !areDistinct ? parts : keys.flatMap((name, i) => (words.some(isOf(name)) ? [i] : []));
    return found.length === 1 ? (found[0] ?? -1) : -1;
  };
}

/** Whether a word names a part: the initial of its owner, and the part. */
function isOf(name: string): (word: string) => boolean {
  return (word) => /^\p{L}[-_]\p{L}{2}/u.test(word) && word[0] === name[0];
}

/** A name, and its devices' names in front of it or behind it. */
const JOINT = /[-_]/;

/** What distinguishes names that are alike otherwise: `heron` of `heron-cam`, `1` of `CAM-1`; else the names. */
export function coresOf(names: readonly string[]): readonly string[] {
  const pieces = names.map((name) => name.split(JOINT));
  const [first = []] = pieces;
  const isJoint = first.length > 1 && pieces.every(({ length }) => length === first.length);
  const differing = first.flatMap((_, k) => (pieces.every((own) => own[k] === first[k]) ? [] : [k]));
  const [at, other] = differing;
  return isJoint && at !== undefined && other === undefined ? pieces.map((own) => own[at] ?? '') : names;
}

/**
 * Index of the name that a word names a part of, −1 if it names none: `wren-wheel` is of `wren-cam` or of `wren`, and
 * `WHEEL-2` of `CAM-2`.
 *
 * @param keys the names in the form used for comparison
 */
export function partsOf(keys: readonly string[]): (word: string) => number {
  const cores = coresOf(keys);
  const areWords = cores.every((core) => /^\p{L}{3,}$/u.test(core));
  const isJoint = cores !== keys;
  const isLast = isJoint && cores.every((core, i) => keys[i]?.endsWith(core) === true);
  return (word) => {
    const pieces = nameKey(word)
      .replace(/['’]s$/u, '')
      .split(JOINT);
    if (pieces.length === 1) return areWords && word !== pieces[0] ? cores.indexOf(pieces[0] ?? '') : -1;
    if (areWords) return onlyOne(cores, pieces);
    // A number or letter says whose it is where it says so of the cameras.
    const piece = isLast ? pieces.at(-1) : pieces[0];
    const isDevice = /^\p{L}{2,}$/u.test((isLast ? pieces[0] : pieces.at(-1)) ?? '');
    return isJoint && isDevice && pieces.length === 2 ? cores.indexOf(piece ?? '') : -1;
  };
}

function onlyOne(cores: readonly string[], pieces: readonly string[]): number {
  const [found, other] = cores.flatMap((core, i) => (pieces.includes(core) ? [i] : []));
  return found === undefined || other !== undefined ? -1 : found;
}
