import { basename } from 'node:path/posix';
import type { FrameTimes } from '../../check/agreement.js';
import type { Reading } from '../reading/reading.js';
import type { BaseSection, DateSource } from '../report.js';
import type { LogSample } from '../sample.js';
import type { BaseLine, HeadLine } from './base-lines.js';
import { swappedOrder } from '../../time/swapped-order.js';
import { languagesOf } from '../lexicon/log-language.js';
import { dateOrder, type DateOrder, instant, type NightEvidence } from './night-evidence.js';
import { statedDays } from './stated-days.js';

const DAY_MS = 86_400_000;
/** Days after the first of a night that a log has at most. */
const MOST_DAYS = 3;

/** Evidence of the night: its frames, the head and the file name, the file's modification time. */
export function nightOf(
  { file, writtenMs = NaN }: LogSample,
  head: readonly HeadLine[],
  frames: readonly FrameTimes[],
): NightEvidence {
  const stated = statedDays(
    head.map(({ text }) => text),
    file,
  );
  const ofFrames = new Set(frames.map(({ beginMs }) => Math.floor(beginMs / DAY_MS) * DAY_MS));
  return { days: [...ofFrames, ...stated], writtenMs };
}

/** With slashes and halves of the day, the month is usually first in English (common practice, no source). */
const MONTH_FIRST = /\{day\}\/\{month\}\/\{year2?\}.*\{am-pm\}/;
const SOME = 300;

/** Whether the halves of the day and the words of a log are English. */
function isEnglish(texts: readonly string[]): boolean {
  return /\d ?[ap]m(?!\p{L})/iu.test(texts[0] ?? '') && (languagesOf(texts)?.size ?? 1) === 1;
}

/** The stamp with day and month in the order that matches that night, and the evidence for it. */
export function stampInOrder(
  { stamp, messages, fieldLines, timePaths }: Reading,
  lines: readonly HeadLine[],
  night: NightEvidence,
): { readonly stamp: Reading['stamp']; readonly orderBy: DateOrder['by'] } {
  if (stamp === null || !stamp.dayFirstAssumed) return { stamp, orderBy: null };
  const [record] = fieldLines;
  const text =
    record === undefined
      ? (lines.find(({ number }) => number === messages.find(({ atMs }) => !Number.isNaN(atMs))?.line)?.text ?? '')
      : timePaths.flatMap((path) => record.fields.get(path) ?? []).join(' ');
  const { pattern, by } = dateOrder(stamp.pattern, text, night);
  const usual =
    by === null && MONTH_FIRST.test(pattern) && isEnglish([text, ...messages.slice(0, SOME).map((one) => one.text)]);
  const likely = usual ? (swappedOrder(pattern) ?? pattern) : pattern;
  return { stamp: { ...stamp, pattern: likely, dayFirstAssumed: by === null }, orderBy: by };
}

/** The same for the source of the date, and whether its order is still undetermined. */
export function dateInOrder(
  source: DateSource,
  lines: readonly string[],
  file: string,
  night: NightEvidence,
): { readonly date: DateSource; readonly isOpen: boolean } {
  if (source.from !== 'header' && source.from !== 'file') return { date: source, isOpen: false };
  const text = source.from === 'header' ? (lines[source.line - 1] ?? '') : basename(file);
  const { pattern, isOpen } = dateOrder(source.pattern, text, night);
  const inTurn = isOpen && source.from === 'header' ? dayAfterDay({ ...source, pattern }, lines) : null;
  return { date: { ...source, pattern: inTurn ?? pattern }, isOpen: isOpen && inTurn === null };
}

const NUMERIC = /(?<![\d.])\d{1,2}([./-])\d{1,2}\1(?:20)?\d{2}(?!\d)/gu;
const LOOKED_AT = 400;

/** The order in which the dates that a log states are those of a night and its morning; `null` if none is, or both. */
function dayAfterDay(
  { when, pattern }: { readonly when: string; readonly pattern: string },
  lines: readonly string[],
): string | null {
  const form = new RegExp(when, 'u');
  // A line may state both days of the night.
  const texts = new Set(
    lines.flatMap((line) => {
      const date = form.exec(line)?.groups?.date;
      return date === undefined ? [] : [date, ...(line.slice(0, LOOKED_AT).match(NUMERIC) ?? [])];
    }),
  );
  const fits = [pattern, swappedOrder(pattern) ?? pattern].filter((order) => {
    const days = [...texts].map((text) => instant(order, text));
    return days.length > 1 && Math.max(...days) - Math.min(...days) <= MOST_DAYS * DAY_MS;
  });
  return fits.length === 1 ? (fits[0] ?? null) : null;
}

/** The same for the base of times. */
export function sectionInOrder(
  { section, line, stamp }: BaseLine,
  night: NightEvidence,
): { readonly section: BaseSection; readonly isOpen: boolean } {
  if ('file' in section) return { section, isOpen: false };
  const { pattern, isOpen } = dateOrder(section.base, line.text.slice(stamp.start, stamp.end), night);
  return { section: { ...section, base: pattern }, isOpen };
}
