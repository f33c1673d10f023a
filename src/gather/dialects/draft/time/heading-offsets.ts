import type { DateSource } from '../report.js';
import type { HeadLine } from './base-lines.js';

/** An offset from UTC behind a date, in parentheses or not. */
const OFFSET = String.raw`.*?(?:UTC?|GMT|TU)\s?(?<offset>[-+]\d{1,2}(?::?\d{2})?)`;

/**
 * A date in headings, with the offset that these state if it is not the same in all: a log of reports over the night in
 * which clocks are set.
 */
export function withOffsets(source: DateSource, lines: readonly HeadLine[]): DateSource {
  if (source.from !== 'header' || source.evening) return source;
  const when = `${source.when}${OFFSET}`;
  const [plain, dated] = [new RegExp(source.when, 'u'), new RegExp(when, 'u')];
  const headings = lines.filter(({ text }) => plain.test(text));
  const offsets = headings.flatMap(({ text }) => dated.exec(text)?.groups?.offset ?? []);
  return offsets.length === headings.length && new Set(offsets).size > 1 ? { ...source, when } : source;
}
