import { flattenRecord } from '../../records/flatten-record.js';
import { joinedBy } from '../layout/record-groups.js';
import { firstFields, firstOf, isTime } from '../time/first-fields.js';
import type { StampGuess } from '../time/guess.js';
import { RoughClock } from '../time/rough-clock.js';
import { guessStamp } from '../time/stamp-guess.js';
import { stampsIn } from '../time/stamp-shapes.js';
import { swappedOrder } from '../../time/swapped-order.js';
import { fieldReading, type Row } from './field-reading.js';
import type { LogLines } from './log-lines.js';
import type { Reading } from './reading.js';

/** An unindented line begins an entry. */
const START = String.raw`^\S`;
/** Minimum number of cards, and of stamped entries among them; minimum fraction of both together. */
const MIN_CARDS = 10;
const MIN_STAMPED = 10;
const NEARLY_ALL = 0.95;
const MOST_LINES = 40;
/** Minimum fraction of either sort that a time form must read. */
const READ = 0.97;

/**
 * Cards with a title and time fields among stamped lines: exposures are on cards, other events on one line each. The
 * lines are messages next to the records. `null` if a log does not have both.
 */
export function cardsBesideLines(log: LogLines): Reading | null {
  const { lines } = log;
  if (lines.filter(({ text }) => /^\s/.test(text)).length < MIN_CARDS) return null;
  const entries = joinedBy(lines, START);
  const stamped = entries.filter(({ text }) => hasTime(firstLine(text)));
  const cards = entries.filter((entry) => !hasTime(firstLine(entry.text)));
  const rows = cards.flatMap(({ text, number }): Row[] => {
    const fields = text.split('\n').length > MOST_LINES ? null : flattenRecord('titled', text);
    return fields === null || ![...fields].some(([path, value]) => path !== 'title' && isTime(value))
      ? []
      : [{ fields, line: number, text }];
  });
  if (rows.length < MIN_CARDS || stamped.length < MIN_STAMPED) return null;
  if (rows.length + stamped.length < NEARLY_ALL * entries.length) return null;
  const times = rows.map(
    ({ fields }) => new Map([...fields].filter(([path, value]) => path !== 'title' && isTime(value))),
  );
  const paths = firstFields(times, 1);
  const texts = times.flatMap((own) => firstOf(own, paths) ?? []);
  const heads = stamped.map(({ text }) => firstLine(text));
  const stamp = stampOfBoth(guessStamp(texts, log), guessStamp(heads, log));
  if (stamp === null) return null;
  const layout = { kind: 'records', form: 'titled', start: START } as const;
  const ofCards = fieldReading({ ...log, lines: entries }, layout, rows, { paths, stamp, isFirst: true });
  if (ofCards.stamp?.pattern !== stamp.pattern) return null;
  const clock = RoughClock.of(stamp);
  const messages = stamped.flatMap(({ text, number }) => {
    const [first = '', ...below] = text.split('\n');
    const found = clock.read(first);
    return found === null ? [] : [{ text: [found.rest.trim(), ...below].join('\n'), line: number, atMs: found.atMs }];
  });
  const taken = new Set([...messages, ...ofCards.fieldLines].map(({ line }) => line));
  const loose = ofCards.loose.filter(({ number }) => !taken.has(number));
  return { ...ofCards, stamp, messages, unstamped: loose, loose };
}

/** How cells and lines are read with one clock; `null` if impossible. */
function stampOfBoth(cells: StampGuess | null, inLines: StampGuess | null): StampGuess | null {
  if (cells === null || inLines === null || cells.more !== undefined || inLines.more !== undefined) return null;
  if (cells.coverage < READ || inLines.coverage < READ || cells.pattern.includes('{elapsed')) return null;
  // If one of the two determines whether day or month comes first, the other uses the same order.
  const dayFirstAssumed = cells.dayFirstAssumed && inLines.dayFirstAssumed;
  const isTurned = (one: StampGuess, other: StampGuess): boolean =>
    one.dayFirstAssumed && !other.dayFirstAssumed && stampIn(one.pattern) !== stampIn(other.pattern);
  const orderOf = (one: StampGuess, other: StampGuess): string =>
    isTurned(one, other) ? (swappedOrder(one.pattern) ?? one.pattern) : one.pattern;
  const [ofCells, ofLines] = [orderOf(cells, inLines), orderOf(inLines, cells)];
  if (ofCells !== stampIn(ofLines)) return null;
  if (ofCells === ofLines) return { ...inLines, dayFirstAssumed, pattern: ofCells };
  return inLines.at === 'start' ? { ...inLines, dayFirstAssumed, pattern: ofCells, more: [ofLines] } : null;
}

/** A pattern without the text around its placeholders. */
function stampIn(pattern: string): string {
  return /\{.*\}/.exec(pattern)?.[0] ?? '';
}

function firstLine(text: string): string {
  return text.split('\n')[0] ?? '';
}

function hasTime(text: string): boolean {
  return stampsIn(text).some(({ pattern }) => pattern.includes('{second}') && !pattern.includes('{elapsed'));
}
