import { COMMENT, HEAD_PIECES } from './legend-words.js';

/** An abbreviation, optionally with a sign, and its meaning: `gpa guiding paused`. */
const ENTRY = /^(\p{Ll}[\p{Ll}\d]{1,4}[!?+*]?) (\p{L}[^=:;]*)$/u;
/** An outcome by a sign alone: `> begins`. */
const SIGN = /^([^\p{L}\p{N}\s,;.:"'()]) (\p{L}+)$/u;
/** Entries are separated by commas, sentences by points. */
const BETWEEN = /,\s+|[.;]\s+|[.;]?$/u;
const IN_BRACKETS = /\s*\([^()]*\)/gu;
/** Minimum number of entries; fraction that must occur in the log below, with each entry not a word of its meaning. */
const MIN_ENTRIES = 5;
const IN_USE = 0.8;

/**
 * The abbreviations explained in comma-separated lists at a log's head, each followed by its meaning without a mark
 * between: `gui guiding, gpa guiding paused, los guide star lost`. The log uses them, mostly with signs after them.
 */
export function listedForms(head: readonly string[], wordings: readonly string[]): ReadonlyMap<string, string> {
  const used = new Set(
    wordings.flatMap(
      (wording) => wording.match(/[\p{L}\p{N}_]+[!?+*]?|[^\p{L}\p{N}_\s]/gu)?.slice(0, HEAD_PIECES) ?? [],
    ),
  );
  const parts = head.flatMap((line) => line.replace(COMMENT, '').replace(IN_BRACKETS, '').split(BETWEEN));
  const entriesOf = (form: RegExp): (readonly [string, string])[] =>
    parts.flatMap((part) => {
      const [, mark = '', meaning = ''] = form.exec(part.trim()) ?? [];
      return mark === '' ? [] : [[mark, meaning] as const];
    });
  const found = entriesOf(ENTRY);
  const inUse = found.filter(([form]) => used.has(form) || used.has(form.replace(/[!?+*]$/, '')));
  if (inUse.length < MIN_ENTRIES || inUse.length < IN_USE * found.length) return new Map();
  return new Map([...inUse, ...entriesOf(SIGN)]);
}
