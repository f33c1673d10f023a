/** Languages that set their words apart, as those in Latin letters do. */
const ALPHABETS = /[\p{Script=Greek}\p{Script=Cyrillic}]{2}/u;

/** What must not stand right before or behind a word: nothing is forbidden, a Latin letter or digit, any letter. */
export type Edge = 'none' | 'latin' | 'letter';

const BEFORE: Readonly<Record<Edge, string>> = { none: '', latin: '(?<![a-z0-9])', letter: '(?<!\\p{L})' };
const BEHIND: Readonly<Record<Edge, string>> = { none: '', latin: '(?![a-z0-9])', letter: '(?!\\p{L})' };

/** What a word of a list stands for, without what says where it may stand. */
export function bodyOf(word: string): string {
  const body = word.replace(/\*/g, '').replace(/_/g, ' ');
  return ALPHABETS.test(body) ? body.trim() : body;
}

/** What must not stand before and behind a word of a list. */
export function edgesOf(word: string): readonly [before: Edge, behind: Edge] {
  const body = bodyOf(word);
  if (ALPHABETS.test(body)) return [word.startsWith('*') ? 'none' : 'letter', word.endsWith('*') ? 'none' : 'letter'];
  if (/[^\x20-\x7f]/.test(body)) return ['none', 'none'];
  return [word.startsWith('*') ? 'none' : 'latin', word.endsWith('*') ? 'none' : 'latin'];
}

/** A word of a list as an expression. */
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

/** What follows each first letter, in the order of the list. */
type Initials = Map<string, Set<string>>;

/** Words by their first letters: at each place of a text hardly any of them is compared. */
function anyOf(initials: Initials): string {
  return `${BEFORE.latin}(?:${[...initials].map(([first, rests]) => `${first}(?:${[...rests].join('|')})`).join('|')})`;
}
