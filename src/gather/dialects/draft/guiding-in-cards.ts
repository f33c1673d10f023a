import { newStamp, StampPattern } from '../time/stamp.js';
import type { Kind } from './kinds/kind.js';
import { textKinds } from './kinds/text-kinds.js';
import type { Reading } from './reading/reading.js';

/** Minimum number of lines with samples. */
const MIN_LINES = 20;

/**
 * The lines with their own stamps inside cards that are not records: a card may list the guiding errors of the past
 * minutes, one sample per line.
 */
export function linesInCards({ layout, stamp, loose }: Reading, decimalComma: boolean): Kind[] {
  if (layout.kind !== 'records' || layout.form !== 'titled' || stamp === null) return [];
  const patterns = [stamp.pattern, ...(stamp.more ?? [])].map((pattern) => new StampPattern(pattern));
  const found = newStamp();
  const timed = loose.flatMap(({ text, number }) => {
    const bytes = Buffer.from(text.trim());
    if (!patterns.some((pattern) => pattern.readAt(bytes, 0, bytes.length, found))) return [];
    const words = bytes.subarray(0, found.end).toString('utf8').split(/\s+/).length;
    return [{ text: bytes.subarray(found.end).toString('utf8').trim(), line: number, atMs: found.ms, words }];
  });
  const [first] = timed;
  if (first === undefined || timed.length < MIN_LINES) return [];
  // The pattern includes the stamp, because time patterns for line beginnings do not read an indented one.
  const time = String.raw`^(?<time>\S+${String.raw`\s+\S+`.repeat(first.words - 1)})\s+`;
  return textKinds(
    timed.filter(({ words }) => words === first.words),
    decimalComma,
  ).map((kind) => ({
    ...kind,
    when: (groups) => {
      const when = kind.when(groups);
      return typeof when === 'string' ? when.replace(/^\^/, time) : when;
    },
  }));
}
