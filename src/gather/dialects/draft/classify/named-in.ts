import { nameKey, wordsIn } from './twins.js';

/**
 * Index of the name that occurs in a text; −1 if none or several do: a line that names both is about what they share.
 *
 * @param keys the names in the form used for comparison
 */
export function namedIn(keys: readonly string[]): (text: string) => number {
  const areDistinct = new Set(keys.map(([initial]) => initial)).size === keys.length;
  return (text) => {
    const words = wordsIn(text).map(nameKey);
    const whole = keys.flatMap((name, i) => (words.includes(name) ? [i] : []));
    // `H-FILT` is the filter of `HERON`.
    const found =
      whole.length > 0 || !areDistinct ? whole : keys.flatMap((name, i) => (words.some(isOf(name)) ? [i] : []));
    return found.length === 1 ? (found[0] ?? -1) : -1;
  };
}

/** Whether a word names a part: the initial of its owner, and the part. */
function isOf(name: string): (word: string) => boolean {
  return (word) => /^\p{L}[-_]\p{L}{2}/u.test(word) && word[0] === name[0];
}
