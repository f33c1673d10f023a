/**
 * Globs over relative paths, matched in time that grows with the product of both lengths and no faster: a pattern of
 * many stars from a stranger's rig file holds nothing up, as it does with patterns turned into regular expressions.
 */

/** Braces that expand to more alternatives than this are taken literally. */
const MAX_ALTERNATIVES = 1000;

/** One place of a pattern within a folder's or file's name. */
type Place =
  | '*'
  | '?'
  | { readonly literal: string }
  | { readonly set: ReadonlySet<string>; readonly isExcluding: boolean };
/**
 * A pattern by its parts; `**` matches any number of folders, and most others the one of that name, or files with one
 * ending, like `*.fits`.
 */
type Part = '**' | { readonly name: string } | { readonly ending: string } | readonly Place[];

/**
 * Makes a test of relative paths (forward slashes): `*` and `?` within a name, `**` over folders, `[abc]`, `[a-f]`,
 * `[!abc]` for one character, `{one,other}` for alternatives. Upper and lower case match each other. A backslash
 * separates folders as it does on Windows; it cannot take a sign's meaning away, `[*]` does. A folder's plain name
 * stands for everything in it.
 */
export function pathMatcher(globs: readonly string[]): (path: string) => boolean {
  const written = globs.map((glob) => glob.replaceAll('\\', '/').replace(/^(\.\/)+|(?<=.)\/+$/g, ''));
  const patterns = written.flatMap(unfolded).flatMap(withContents).map(parse);
  return (path) => {
    const names = path.toLowerCase().split('/');
    return patterns.some((parts) => matchParts(parts, names));
  };
}

/** A name without a wildcard may be a folder: `frames/heron`. */
function withContents(glob: string): string[] {
  return /[*?[]/.test(glob.slice(glob.lastIndexOf('/') + 1)) || glob === '' ? [glob] : [glob, `${glob}/**/*`];
}

/** The alternatives of the braces. */
function unfolded(glob: string): string[] {
  const done: string[] = [];
  const waiting = [glob];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    // The innermost braces come first, so that those around them unfold whole.
    const match = /\{([^{}]*,[^{}]*)\}/.exec(next);
    if (!match || done.length + waiting.length > MAX_ALTERNATIVES) done.push(next);
    else {
      const [before, after] = [next.slice(0, match.index), next.slice(match.index + match[0].length)];
      waiting.push(...(match[1] ?? '').split(',').map((one) => before + one + after));
    }
  }
  return done;
}

function parse(glob: string): readonly Part[] {
  return glob
    .toLowerCase()
    .split('/')
    .map((part): Part => {
      if (part === '**') return '**';
      if (!/[*?[]/.test(part)) return { name: part };
      return /^\*[^*?[]+$/.test(part) ? { ending: part.slice(1) } : placesOf(part);
    });
}

function placesOf(part: string): Place[] {
  const places: Place[] = [];
  const characters = [...part];
  for (let i = 0; i < characters.length; i++) {
    const character = characters[i] ?? '';
    const close = character === '[' ? characters.indexOf(']', i + 2) : -1;
    if (close > 0) {
      places.push(setOf(characters.slice(i + 1, close)));
      i = close;
    } else if (character === '*') {
      if (places.at(-1) !== '*') places.push('*');
    } else places.push(character === '?' ? '?' : { literal: character });
  }
  return places;
}

function setOf(characters: readonly string[]): Place {
  const isExcluding = characters[0] === '!' || characters[0] === '^';
  const members = isExcluding ? characters.slice(1) : characters;
  const set = new Set<string>();
  for (let i = 0; i < members.length; i++) {
    const from = members[i]?.codePointAt(0) ?? 0;
    const isSpan = members[i + 1] === '-' && i + 2 < members.length;
    const to = isSpan ? (members[i + 2]?.codePointAt(0) ?? 0) : from;
    for (let code = from; code <= Math.min(to, from + 256); code++) set.add(String.fromCodePoint(code));
    if (isSpan) i += 2;
  }
  return { set, isExcluding };
}

function matchParts(parts: readonly Part[], names: readonly string[]): boolean {
  return matchGreedily(
    parts,
    names,
    (part) => part === '**',
    (part, name) => part !== '**' && !name.startsWith('.') && matchName(part, name),
    (name) => !name.startsWith('.'),
  );
}

function matchName(part: Exclude<Part, '**'>, name: string): boolean {
  if ('name' in part) return part.name === name;
  if ('ending' in part) return name.endsWith(part.ending);
  return matchGreedily(
    part,
    [...name],
    (place) => place === '*',
    (place, character) => {
      if (place === '*' || place === '?') return true;
      if ('literal' in place) return place.literal === character;
      return place.set.has(character) !== place.isExcluding;
    },
    () => true,
  );
}

/**
 * Matches items against a pattern with wildcards that match any number of items. Backtracking to the last wildcard is
 * sufficient: anything an earlier one could match, the last can match as well.
 */
function matchGreedily<P, T>(
  pattern: readonly P[],
  items: readonly T[],
  isWild: (place: P) => boolean,
  matches: (place: P, item: T) => boolean,
  isTakenByWild: (item: T) => boolean,
): boolean {
  let [p, i] = [0, 0];
  let [wildP, wildI] = [-1, 0];
  while (i < items.length) {
    const place = pattern[p];
    const item = items[i];
    if (p < pattern.length && place !== undefined && isWild(place)) {
      [wildP, wildI] = [p, i];
      p++;
    } else if (place !== undefined && item !== undefined && matches(place, item)) {
      p++;
      i++;
    } else {
      const taken = items[wildI];
      if (wildP < 0 || taken === undefined || !isTakenByWild(taken)) return false;
      p = wildP + 1;
      i = ++wildI;
    }
  }
  while (p < pattern.length) {
    const place = pattern[p];
    if (place === undefined || !isWild(place)) return false;
    p++;
  }
  return true;
}
