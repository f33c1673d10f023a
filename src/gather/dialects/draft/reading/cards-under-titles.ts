import { isLink } from '../kinds/leading-on.js';
import { joinedBy } from '../layout/record-groups.js';
import { spread } from '../layout/layout.js';
import { guessStamp } from '../time/stamp-guess.js';
import { stampsIn } from '../time/stamp-shapes.js';
import type { LogLines } from './log-lines.js';
import type { Reading } from './reading.js';
import { textReading } from './text-reading.js';

/** An indented line continues the one above it. */
const START = String.raw`^\S`;
const MIN_CARDS = 10;
/** Minimum fraction of entries that have indented lines, and of lines with two times that state a span. */
const MOSTLY = 0.6;
/** Minimum fraction of these whose first line has no time, while a line below it has one. */
const NEARLY_ALL = 0.9;
const COMPARED = 500;

/**
 * Cards whose titles say what they are about while the indented sentences below say when: `exposure, Ha` above `from
 * 21:03:10 to 21:08:10`. The first time is the card's own. `null` if a log has none, or names its times one by one.
 *
 * @param plain the log as lines with stamps, which may take a line below a title for the first of an entry
 */
export function cardsUnderTitles(plain: Reading, log: LogLines): Reading | null {
  const { lines } = log;
  if (plain.entries === null || lines.filter(({ text }) => /^\s/.test(text)).length < MIN_CARDS) return null;
  const entries = joinedBy(lines, START).map(({ text }) => text.split('\n'));
  const cards = entries.filter((own) => own.length > 1);
  if (cards.length < MIN_CARDS || cards.length < MOSTLY * entries.length) return null;
  const timed = spread(
    cards.filter(([title = '', ...below]) => !hasTime(title) && below.some(hasTime)),
    COMPARED,
  );
  if (timed.length < NEARLY_ALL * Math.min(COMPARED, cards.length)) return null;
  const isInCards = timed.filter(statesSpan).length >= MOSTLY * timed.filter(hasTwoTimes).length;
  if (!isInCards && plain.entries !== 'stamp') return null;
  const texts = timed.map((own) => own.map((line) => line.trim()).join(' '));
  const stamp = guessStamp(texts, log, ['anywhere']);
  if (stamp === null || stamp.coverage < NEARLY_ALL) return null;
  return { ...textReading(log, stamp), ...(isInCards ? { isInCards } : {}) };
}

const INSTANT = /\{(?:second|epoch|mjd|julian)/;

function hasTime(text: string): boolean {
  return timeIn(text, 0) !== undefined;
}

/** The first time in a text from this place on. */
function timeIn(text: string, from: number): { readonly start: number; readonly end: number } | undefined {
  const found = stampsIn(text.slice(from)).filter(({ pattern }) => INSTANT.test(pattern));
  const first = Math.min(...found.map(({ start }) => start));
  // The longest form at this place: with its date.
  const [longest] = found.filter(({ start }) => start === first).sort((a, b) => b.end - a.end);
  return longest === undefined ? undefined : { start: from + longest.start, end: from + longest.end };
}

/** What is between the first two times of a line. */
function betweenTimes(line: string): string | undefined {
  const first = timeIn(line, 0);
  const second = first === undefined ? undefined : timeIn(line, first.end);
  return second === undefined ? undefined : line.slice(first?.end, second.start);
}

function statesSpan(card: readonly string[]): boolean {
  return card.map(betweenTimes).some((between) => between !== undefined && isLink(between));
}

function hasTwoTimes(card: readonly string[]): boolean {
  return card.filter(hasTime).length > 1 || card.some((line) => betweenTimes(line) !== undefined);
}
