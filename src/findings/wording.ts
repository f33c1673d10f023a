/**
 * Words for instants and for lists of frames in findings.
 */
import { clockOf, type Finding, type Interval, type JudgedFrame, type NightFacts } from '../model/index.js';

/** Local time at the site, `23:14`; in the hour that comes twice with which of the two it is. */
export function clock(atMs: number, night: NightFacts): string {
  return clockOf(night.gathered.site?.timezone ?? 'UTC').moment(atMs);
}

/** `23:14 to 23:40`. */
export function fromTo(span: Interval, night: NightFacts): string {
  return `${clock(span.startMs, night)} to ${clock(span.endMs, night)}`;
}

/** The first few lines, and how many more there are. */
export function firstOf(lines: readonly string[], limit = 4): string[] {
  return lines.length <= limit + 1 ? [...lines] : [...lines.slice(0, limit), `and ${lines.length - limit} more`];
}

const COUNT_WORDS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine'];

/** A count that begins a title: beside the finding's own number a second figure would be misread. */
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
 * A title within a sentence. Names of trains and targets keep their letters: only a lone capital followed by small ones
 * is a sentence's.
 */
export function inSentence(text: string): string {
  return /^[A-Z][a-z]+ /.test(text) ? `${text[0]?.toLowerCase() ?? ''}${text.slice(1)}` : text;
}
