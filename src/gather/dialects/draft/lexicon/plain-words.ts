/** Letters that Unicode does not decompose into a letter and a mark. */
const WHOLE_LETTERS: Readonly<Record<string, string>> = { ß: 'ss', ł: 'l', ø: 'o', đ: 'd', ı: 'i', æ: 'ae', œ: 'oe' };

/** Each wording of a draft is requested about eight times. */
const KEPT = 8000;
const kept = new Map<string, string>();

/** The text as the lexicon reads it: lower case, no accents, punctuation and underscores as blanks. */
export function plainWords(text: string): string {
  const before = kept.get(text);
  if (before !== undefined) return before;
  if (kept.size >= KEPT) kept.clear();
  const words = plain(text);
  kept.set(text, words);
  return words;
}

function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .normalize('NFC')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/[ßłøđıæœ]/g, (letter) => WHOLE_LETTERS[letter] ?? letter)
    .replace(/[^\p{L}\p{N}%]+/gu, ' ')
    .trim();
}

/** The bracket in a title: the unit, the zone, what is counted or since when. */
export const IN_BRACKETS = /[[(][^\])]*[\])]/g;
