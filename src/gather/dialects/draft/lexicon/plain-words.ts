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

/** Languages that set their words apart, as those in Latin letters do. */
const ALPHABETS = /[\p{Script=Greek}\p{Script=Cyrillic}]{2}/u;

/**
 * A list of words as one expression on plain words. `expos*` stands for every word that begins so, `*rad` for every
 * word that ends so, `wieder_da` for words that follow each other; words in Chinese, Japanese and Korean stand
 * anywhere.
 */
export function wordList(words: string): RegExp {
  const parts: (string | Initials)[] = [];
  for (const word of words.split(/\s+/)) {
    if (word === '') continue;
    const body = word.replace(/\*/g, '').replace(/_/g, ' ');
    const end = word.endsWith('*') ? '' : '(?![a-z0-9])';
    const last = parts[parts.length - 1];
    if (/^[a-z0-9][a-z0-9 ]*$/.test(body) && !word.startsWith('*')) {
      const initials: Initials = last instanceof Map ? last : new Map<string, Set<string>>();
      if (initials !== last) parts.push(initials);
      const [first = ''] = body;
      initials.set(first, (initials.get(first) ?? new Set()).add(body.slice(1) + end));
    } else if (ALPHABETS.test(body))
      parts.push(`${word.startsWith('*') ? '' : '(?<!\\p{L})'}${body.trim()}${word.endsWith('*') ? '' : '(?!\\p{L})'}`);
    else if (/[^\x20-\x7f]/.test(body)) parts.push(body);
    else parts.push(`${word.startsWith('*') ? '' : '(?<![a-z0-9])'}${body}${end}`);
  }
  return new RegExp(parts.map((part) => (typeof part === 'string' ? part : anyOf(part))).join('|'), 'u');
}

/** What follows each first letter, in the order of the list. */
type Initials = Map<string, Set<string>>;

/** Words by their first letters: at each place of a text hardly any of them is compared. */
function anyOf(initials: Initials): string {
  return `(?<![a-z0-9])(?:${[...initials].map(([first, rests]) => `${first}(?:${[...rests].join('|')})`).join('|')})`;
}
