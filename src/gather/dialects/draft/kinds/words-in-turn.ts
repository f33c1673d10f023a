import { groupBy, increment } from '../../../../model/index.js';
import { saysMotion } from '../lexicon/said.js';
import type { Kind } from './kind.js';
import { FIRST, IN_TURN, isOfMount, MIN_OF_MOUNT, MIN_THINGS, MOST, worded } from './turning-field.js';

/** A word of a kind, and the text before it, or after it if it is the first. */
interface Said {
  readonly kind: Kind;
  readonly word: string;
  readonly name: string;
  /** The name with its source. */
  readonly thing: string;
}

const WORD = /\p{L}+/gu;
const MOST_WORDS = 8;
/** End of a name that follows the word. */
const NAME_ENDS = /[#,;:([{\n]|\s{2,}/u;

/**
 * The kinds of a text in which all begins and ends are marked by two words without other meaning, `settling SET` and
 * `settling CLR`, reworded as begins and ends: the words alternate, and each span begins before it ends.
 */
export function wordsInTurn(kinds: readonly Kind[]): readonly Kind[] {
  const byWord = groupBy(kinds.flatMap(saidIn), ({ word }) => word);
  const lines = kinds.reduce((sum, { count }) => sum + count, 0);
  const common = [...byWord].filter(([, own]) => new Set(own.map(({ thing }) => thing)).size >= MIN_THINGS);
  for (const [i, [one, first]] of common.entries())
    for (const [other, second] of common.slice(i + 1)) {
      if (saysMotion(one) && saysMotion(other)) continue;
      const comes = comesFirst(first, second, lines);
      if (comes === null) continue;
      const turned = new Map([...first, ...second].map((own) => [own.kind, own]));
      const begins = comes ? one : other;
      return kinds.map((kind) => {
        const own = turned.get(kind);
        return own === undefined ? kind : worded(kind, own.name, own.word, own.word === begins);
      });
    }
  return kinds;
}

function saidIn(kind: Kind): Said[] {
  const { wording, lead } = kind;
  const rest = wording.slice(lead);
  const words = [...rest.matchAll(WORD)].slice(0, MOST_WORDS);
  const counts = new Map<string, number>();
  for (const [word] of words) increment(counts, word);
  return words.flatMap(({ 0: word, index }, nth): Said[] => {
    if (counts.get(word) !== 1 || rest[index - 1] === '-' || rest[index + word.length] === '-') return [];
    const behind = rest.slice(index + word.length).replace(/^[^\p{L}]+/u, '');
    const name = (nth === 0 ? (behind.split(NAME_ENDS)[0] ?? '') : rest.slice(0, index))
      .replace(/[^\p{L}\p{N})\]#]+$/u, '')
      .trim();
    return /\p{L}/u.test(name) ? [{ kind, word, name, thing: `${wording.slice(0, lead)}\0${name}` }] : [];
  });
}

/** Whether the first of two words marks the begin, `false` if it is the other; `null` if neither does. */
function comesFirst(first: readonly Said[], second: readonly Said[], all: number): boolean | null {
  const own = [...first, ...second];
  if (own.reduce((sum, { kind }) => sum + kind.count, 0) < MOST * all) return null;
  const worded = [first, second].flatMap((words, nth) =>
    words.flatMap(({ thing, kind }) => kind.lines.map((line) => ({ thing, line, isFirst: nth === 0 }))),
  );
  const orders = [...groupBy(worded, ({ thing }) => thing)]
    .map(([thing, lines]) => ({ thing, words: lines.sort((a, b) => a.line - b.line).map(({ isFirst }) => isFirst) }))
    .filter(({ words }) => words.includes(true) && words.includes(false));
  const inTurn = orders.flatMap(({ words }) => words.filter((one, i) => one !== words[i - 1])).length;
  const begun = orders.filter(({ words }) => words[0] === true).length;
  if (orders.length < MIN_THINGS || inTurn < IN_TURN * worded.length) return null;
  if (orders.filter(({ thing }) => isOfMount(thing)).length < MIN_OF_MOUNT) return null;
  if (Math.max(begun, orders.length - begun) < FIRST * orders.length) return null;
  return begun > orders.length - begun;
}
