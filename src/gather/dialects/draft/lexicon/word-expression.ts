/** Languages that separate words, as those in Latin script do. */
const ALPHABETS = /[\p{Script=Greek}\p{Script=Cyrillic}]{2}/u;

/** What must not be adjacent to a word: anything allowed, no Latin letter or digit, no letter. */
export type Edge = 'none' | 'latin' | 'letter';

const BEFORE: Readonly<Record<Edge, string>> = { none: '', latin: '(?<![a-z0-9])', letter: '(?<!\\p{L})' };
const BEHIND: Readonly<Record<Edge, string>> = { none: '', latin: '(?![a-z0-9])', letter: '(?!\\p{L})' };

/** The meaning of a list entry without its boundary conditions. */
export function bodyOf(word: string): string {
  const body = word.replace(/\*/g, '').replace(/_/g, ' ');
  return ALPHABETS.test(body) ? body.trim() : body;
}

/** What must not precede and follow a list entry. */
export function edgesOf(word: string): readonly [before: Edge, behind: Edge] {
  const body = bodyOf(word);
  if (ALPHABETS.test(body)) return [word.startsWith('*') ? 'none' : 'letter', word.endsWith('*') ? 'none' : 'letter'];
  if (/[^\x20-\x7f]/.test(body)) return ['none', 'none'];
  return [word.startsWith('*') ? 'none' : 'latin', word.endsWith('*') ? 'none' : 'latin'];
}

/** A list entry as an expression. */
export function expressionOf(word: string): string {
  const [before, behind] = edgesOf(word);
  return `${BEFORE[before]}${bodyOf(word)}${BEHIND[behind]}`;
}

/** A list of words as one expression. */
export function expressionOfAll(list: string): string {
  const parts: (string | Initials)[] = [];
  for (const word of list.split(/\s+/)) {
    if (word === '') continue;
    const body = bodyOf(word);
    const last = parts[parts.length - 1];
    if (/^[a-z0-9][a-z0-9 ]*$/.test(body) && !word.startsWith('*')) {
      const initials: Initials = last instanceof Map ? last : new Map<string, Set<string>>();
      if (initials !== last) parts.push(initials);
      const [first = ''] = body;
      initials.set(first, (initials.get(first) ?? new Set()).add(body.slice(1) + BEHIND[edgesOf(word)[1]]));
    } else parts.push(expressionOf(word));
  }
  return parts.map((part) => (typeof part === 'string' ? part : anyOf(part))).join('|');
}

/** Continuations by first letter, in list order. */
type Initials = Map<string, Set<string>>;

/** Words by their first letters: at each position of a text hardly any is compared. */
function anyOf(initials: Initials): string {
  return `${BEFORE.latin}(?:${[...initials].map(([first, rests]) => `${first}(?:${[...rests].join('|')})`).join('|')})`;
}
