/** Wording for instants and lists of frames in findings. */
import { clockOf, type Finding, type Interval, type JudgedFrame, type NightFacts } from '../model/index.js';

/** Local time at the site, `23:14`; in the repeated hour with which of the two it is. */
export function clock(atMs: number, night: NightFacts): string {
  return clockOf(night.gathered.site?.timezone ?? 'UTC').moment(atMs);
}

/** `23:14 to 23:40`. */
export function fromTo(span: Interval, night: NightFacts): string {
  return `${clock(span.startMs, night)} to ${clock(span.endMs, night)}`;
}

/** The first few lines, and the number of the others. */
export function firstOf(lines: readonly string[], limit = 4): string[] {
  return lines.length <= limit + 1 ? [...lines] : [...lines.slice(0, limit), `and ${lines.length - limit} more`];
}

const COUNT_WORDS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine'];

/**
 * A count at the beginning of a title, spelled out: next to the finding's own number a second figure would be misread.
 */
export function countedInWords(count: number): string {
  return COUNT_WORDS[count] ?? String(count);
}

/** Links to frames, at most `limit` of them. */
export function frameLinks(
  frames: readonly JudgedFrame[],
  night: NightFacts,
  limit = 8,
): NonNullable<Finding['links']> {
  return frames
    .slice(0, limit)
    .map((f) => ({ text: `${f.train} ${clock(f.exposure.startMs, night)}`, anchor: `frame-${f.id}` }));
}

/**
 * A title inside a sentence. Names of trains and targets keep their capitals: only a single capital followed by lower
 * case is lowered.
 */
export function inSentence(text: string): string {
  return /^[A-Z][a-z]+ /.test(text) ? `${text[0]?.toLowerCase() ?? ''}${text.slice(1)}` : text;
}
