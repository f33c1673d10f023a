import { increment } from '../../../../model/index.js';
import type { FieldLine } from './field-line.js';

/**
 * Minimum fraction of rows that fill one of the columns, and of rows that fill each column; maximum fraction that fill
 * two.
 */
const COVERED = 0.95;
const OWN = 0.1;
const BOTH = 0.02;
/** Columns say the same: minimum number and fraction of first words of one that also occur in another. */
const SHARED = 0.6;
const MIN_WORDS = 4;

/**
 * Alternating columns of a table with sentences of the same kinds, one per train: each row fills one of them. One more
 * column may hold what is common to the trains. Empty if there are none.
 */
export function columnsInTurn(lines: readonly FieldLine[], timePaths: readonly string[]): readonly string[] {
  const counts = new Map<string, number>();
  const words = new Map<string, Set<string>>();
  for (const { fields } of lines)
    for (const [path, value] of fields) {
      if (timePaths.includes(path) || value === '') continue;
      increment(counts, path);
      const own = words.get(path) ?? new Set<string>();
      const [first = '', second = ''] = value.split(/\s/);
      words.set(path, own.add(first).add(/\d/.test(second) ? first : `${first} ${second}`));
    }
  const paths = [...counts].flatMap(([path, count]) => (count >= OWN * lines.length ? [path] : []));
  if (paths.length < 2) return [];
  const filled = lines.map(({ fields }) => paths.filter((path) => (fields.get(path) ?? '') !== '').length);
  const isTurn =
    filled.filter((count) => count > 0).length >= COVERED * lines.length &&
    filled.filter((count) => count > 1).length <= BOTH * lines.length;
  const alike = paths.filter((path) =>
    paths.some((other) => other !== path && saysAlike(words.get(path), words.get(other))),
  );
  const others = paths.filter((path) => !alike.includes(path));
  const isAlike = alike.every((path) => alike.every((other) => saysAlike(words.get(path), words.get(other))));
  const areSentences = others.every((path) => saysSentences([...(words.get(path) ?? [])]));
  return isTurn && alike.length >= 2 && others.length <= 1 && isAlike && areSentences ? paths : [];
}

/** Whether the sentences of a column begin with words. */
function saysSentences(words: readonly string[]): boolean {
  return words.length >= MIN_WORDS && words.every((word) => /\p{L}{2}/u.test(word) && !/\d/.test(word));
}

function saysAlike(a: ReadonlySet<string> = new Set(), b: ReadonlySet<string> = new Set()): boolean {
  const least = Math.min(a.size, b.size);
  const said = [...a].filter((word) => /[^\d.,:+-]/.test(word) && b.has(word)).length;
  return said >= MIN_WORDS && said >= SHARED * least;
}
