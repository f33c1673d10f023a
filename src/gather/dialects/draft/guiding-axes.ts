import type { Kind, Slot } from './kinds/kind.js';
import { plainWords } from './lexicon/plain-words.js';
import { wordList } from './lexicon/word-list.js';

/** Unambiguous axis names: a single letter may be a word. */
const RA = wordList('ra ar alpha rekt* rektas* right_ascension 赤经 赤経');
const DEC = wordList('dec decl* dekl* delta 赤纬 赤緯');

/**
 * Two errors followed by their axis names, `0.21" in RA and 0.72" in Dec`, as right ascension and declination; `null`
 * if the names come first, or are absent.
 */
export function namedBehind(kind: Kind, pair: readonly [Slot, Slot]): readonly [Slot, Slot] | null {
  const [first, second] = pair;
  if (first.path !== null || second.path !== null) return null;
  const [before, between, behind] = around(kind, first, second);
  if (before === undefined || between === undefined || behind === undefined) return null;
  if (axisIn(before.slice(-24)) !== null) return null;
  const [own, other] = [axisIn(between), axisIn(behind.slice(0, 24))];
  if (own === null || other === null || own === other) return null;
  return own === 'ra' ? pair : [second, first];
}

/** Whether a value is named after an axis of the sky, not of the camera such as `dx`. */
export function namesAxis({ path, before }: Slot): boolean {
  const words = path === null ? before.slice(0, 3) : plainWords(path).split(' ');
  return words.some((word) => RA.test(word) || DEC.test(word));
}

/** The two fields of one object named after the axes; `null` if there are none or several. */
export function axesNamed(paths: readonly string[]): readonly [string, string] | null {
  const parentOf = (path: string): string => path.slice(0, path.lastIndexOf('.') + 1);
  const nameOf = (path: string): string => path.slice(path.lastIndexOf('.') + 1);
  const pairs = paths
    .filter((path) => axisIn(nameOf(path)) === 'ra')
    .flatMap((ra): (readonly [string, string])[] =>
      paths
        .filter((dec) => axisIn(nameOf(dec)) === 'dec' && parentOf(dec) === parentOf(ra))
        .map((dec) => [ra, dec] as const),
    );
  return pairs.length === 1 ? (pairs[0] ?? null) : null;
}

/** The text before, between and after the two, in one of the kind's lines. */
function around({ slots, examples: [line = ''] }: Kind, first: Slot, second: Slot): string[] {
  const places = new Map<Slot, number>();
  let from = 0;
  for (const slot of slots) {
    const value = slot.perLine[0] ?? '';
    const at = line.indexOf(value, from);
    if (at < 0) return [];
    places.set(slot, at);
    from = at + value.length;
  }
  const [a = 0, b = 0] = [places.get(first), places.get(second)];
  if (b <= a) return [];
  return [
    line.slice(0, a),
    line.slice(a + (first.perLine[0]?.length ?? 0), b),
    line.slice(b + (second.perLine[0]?.length ?? 0)),
  ];
}

function axisIn(text: string): 'ra' | 'dec' | null {
  const words = plainWords(text).split(' ');
  const [ra, dec] = [words.some((word) => RA.test(word)), words.some((word) => DEC.test(word))];
  return ra === dec ? null : ra ? 'ra' : 'dec';
}
