import type { HeadLine } from '../time/base-lines.js';
import { RoughClock } from '../time/rough-clock.js';
import { stampsIn } from '../time/stamp-shapes.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import type { Message } from '../kinds/text-kinds.js';

/** Minimum fraction of lines with several stamps; minimum fraction of inner stamps directly after a mark. */
const WITH_SEVERAL = 0.1;
const MARKED = 0.8;
const LOOKED_AT = 600;
/** Separators between messages, as removed by the dialect reader. */
const BETWEEN = /^[\s·•;,|/–—-]+|[\s·•;,|/–—-]+$/g;
const MARK_BEFORE = /(?:^|[·•;,|/–—-])\s*$/;

/**
 * The stamp pattern of a log in whose lines every stamp begins a message, separated by marks; `null` if lines have one
 * stamp, or several inside sentences.
 */
export function innerStamps(lines: readonly string[]): string | null {
  const sample = lines.slice(0, LOOKED_AT);
  const counts = new Map<string, { several: number; marked: number; inner: number }>();
  for (const line of sample) {
    const seen = new Map<string, { count: number; marked: number }>();
    let from = 0;
    while (from < line.length) {
      const next = stampsIn(line.slice(from))
        .filter(({ pattern }) => pattern.includes('{hour') && !/\{[abc]\}/.test(pattern))
        .sort((a, b) => a.start - b.start || b.end - a.end)[0];
      if (next === undefined) break;
      const at = from;
      from += next.end;
      // The hour and minute of a periodic summary is not the stamp of an event.
      if (!next.pattern.includes('{second}')) continue;
      const one = seen.get(next.pattern) ?? { count: 0, marked: 0 };
      seen.set(next.pattern, one);
      one.count++;
      if (MARK_BEFORE.test(line.slice(0, at + next.start)) && /^\s*[:,-]?\s*\p{L}/u.test(line.slice(at + next.end)))
        one.marked++;
    }
    for (const [pattern, { count, marked }] of seen) {
      const one = counts.get(pattern) ?? { several: 0, marked: 0, inner: 0 };
      counts.set(pattern, one);
      // Lines with one stamp do not show what several mean.
      if (count < 2) continue;
      one.several++;
      one.marked += marked;
      one.inner += count;
    }
  }
  const [best] = [...counts].sort((a, b) => b[1].several - a[1].several);
  if (best === undefined) return null;
  const [pattern, { several, marked, inner }] = best;
  return several >= WITH_SEVERAL * sample.length && marked >= MARKED * inner ? pattern : null;
}

/** The messages of such a log. */
export function stampedParts(lines: readonly HeadLine[], source: string): { messages: Message[]; loose: HeadLine[] } {
  const pattern = new StampPattern(source);
  const clock = new RoughClock(source, 'start');
  const stamp = newStamp();
  const messages: Message[] = [];
  const loose: HeadLine[] = [];
  for (const line of lines) {
    const bytes = Buffer.from(line.text);
    const parts: { begin: number; end: number; atMs: number }[] = [];
    for (let from = 0; pattern.find(bytes, from, bytes.length, stamp); from = stamp.end) {
      const text = bytes.subarray(stamp.start, stamp.end).toString('utf8');
      parts.push({ begin: stamp.start, end: stamp.end, atMs: clock.read(text)?.atMs ?? NaN });
    }
    if (parts.length === 0) loose.push(line);
    parts.forEach(({ end, atMs }, k) => {
      const text = bytes.subarray(end, parts[k + 1]?.begin ?? bytes.length).toString('utf8');
      messages.push({ text: text.replace(BETWEEN, ''), line: line.number, atMs });
    });
  }
  return { messages, loose };
}
