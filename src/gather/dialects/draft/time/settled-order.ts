import { basename } from 'node:path/posix';
import type { FrameTimes } from '../../check/agreement.js';
import type { Reading } from '../reading/reading.js';
import type { DateSource, SectionDraft } from '../report.js';
import type { LogSample } from '../sample.js';
import type { BaseLine, HeadLine } from './base-lines.js';
import { dateOrder, type DateOrder, type NightEvidence } from './night-evidence.js';
import { statedDays } from './stated-days.js';

const DAY_MS = 86_400_000;

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
  return { stamp: { ...stamp, pattern, dayFirstAssumed: by === null }, orderBy: by };
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
  return { date: { ...source, pattern }, isOpen };
}

/** The same for the base of times. */
export function sectionInOrder(
  { section, line, stamp }: BaseLine,
  night: NightEvidence,
): { readonly section: SectionDraft; readonly isOpen: boolean } {
  if ('file' in section) return { section, isOpen: false };
  const { pattern, isOpen } = dateOrder(section.base, line.text.slice(stamp.start, stamp.end), night);
  return { section: { ...section, base: pattern }, isOpen };
}
