import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import { isPixels } from '../group-names.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import type { Kind } from './kind.js';

/** A column of times, by its title. Empty cells are NaN. */
interface Titled {
  readonly title: string;
  readonly atMs: readonly number[];
}

/** A subject that is named alone, or beside a word that says little. */
const NAMED = 1.6;
/** Minimum fraction of rows with both, and with the second later than the first. */
const NEARLY_ALL = 0.95;

/**
 * The two ends of what two columns are about whose titles differ in their last word alone, `wheel turns` and `wheel
 * halts`: filled on the same rows, the one always later than the other. What they share names it, or a third column
 * gives its size in pixels, as only a dither has.
 *
 * @param columns of times of a kind; those whose meaning is known are left as they are
 */
export function titlePairs<T extends Titled>(kind: Kind, columns: readonly T[]): ReadonlyMap<T, EventName> {
  const found = new Map<T, EventName>();
  for (const first of columns) {
    const stem = stemOf(first.title);
    const same = columns.filter(({ title }) => stem !== '' && stemOf(title) === stem);
    const second = same.find((one) => one !== first);
    if (same.length !== 2 || second === undefined || !isBefore(first, second)) continue;
    const begin = shiftedBy(kind, stem) ?? namedBy([stem, first.title, second.title]);
    const end = begin === null ? undefined : endOf(begin);
    if (begin !== null && end !== undefined) found.set(first, begin).set(second, end);
  }
  return found;
}

function stemOf(title: string): string {
  return plainWords(title).split(' ').slice(0, -1).join(' ');
}

function isBefore(first: Titled, second: Titled): boolean {
  const both = first.atMs.flatMap((atMs, i) => {
    const afterMs = (second.atMs[i] ?? NaN) - atMs;
    return Number.isNaN(afterMs) ? [] : [afterMs];
  });
  const filled = Math.max(...[first, second].map(({ atMs }) => atMs.filter((ms) => !Number.isNaN(ms)).length));
  return both.length > 0 && both.filter((ms) => ms > 0).length >= NEARLY_ALL * filled;
}

/** A dither, where a column of the same name gives its size. */
function shiftedBy({ slots }: Kind, stem: string): EventName | null {
  const isSize = slots.some((slot) => slot.path !== null && stemOf(slot.path) === stem && isPixels(slot));
  return isSize ? 'dither-begin' : null;
}

/** What begins according to these words, if all of them that say anything name the same. */
function namedBy(texts: readonly string[]): EventName | null {
  const said = texts.flatMap((text): EventName[] => {
    const [best] = [...wordEvidence(text)].sort((a, b) => b[1] - a[1]);
    return best !== undefined && best[1] >= NAMED ? [beginOf(best[0]) ?? best[0]] : [];
  });
  const [only, other] = new Set(said);
  return other === undefined ? (only ?? null) : null;
}
