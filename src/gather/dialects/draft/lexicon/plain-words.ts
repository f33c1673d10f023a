/** Letters that Unicode does not take apart into a letter and a mark. */
const WHOLE_LETTERS: Readonly<Record<string, string>> = { ß: 'ss', ł: 'l', ø: 'o', đ: 'd', ı: 'i', æ: 'ae', œ: 'oe' };

/** The text as the lexicon reads it: lower case, no accents, punctuation and underscores as blanks. */
export function plainWords(text: string): string {
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
