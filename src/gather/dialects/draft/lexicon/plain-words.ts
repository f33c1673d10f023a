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

/**
 * A list of words as one expression on plain words. `expos*` stands for every word that begins so, `*rad` for every
 * word that ends so, `wieder_da` for words that follow each other; words in Chinese and Japanese stand anywhere.
 */
export function wordList(words: string): RegExp {
  const sources = words
    .split(/\s+/)
    .filter((word) => word !== '')
    .map((word) => {
      const body = word.replace(/\*/g, '').replace(/_/g, ' ');
      if (/[^\x20-\x7f]/.test(body)) return body;
      return `${word.startsWith('*') ? '' : '(?<![a-z0-9])'}${body}${word.endsWith('*') ? '' : '(?![a-z0-9])'}`;
    });
  return new RegExp(sources.join('|'), 'u');
}
