import { flattenRecord } from '../../records/flatten-record.js';
import { joinedBy } from '../layout/record-groups.js';
import { firstFields, firstOf, isTime } from '../time/first-fields.js';
import { guessStamp } from '../time/stamp-guess.js';
import { stampsIn } from '../time/stamp-shapes.js';
import { fieldReading, type Row } from './field-reading.js';
import type { LogLines } from './log-lines.js';
import type { Reading } from './reading.js';

/** Titles that blocks may begin with. */
const STARTS = [String.raw`^\s*\[[^\]]+\]\s*$`, String.raw`^\S`] as const;
/** The same for lines indented with ideographic or no-break spaces, which are not blanks in dialect syntax. */
const WIDE_START = '^[^\\s\u3000\u00a0]';
const WIDE_BLANK = /^[\u3000\u00a0]/;
const MIN_BLOCKS = 10;
/** Minimum fraction of blocks with a time in a separate field. */
const TIMED = 0.7;
/** Rare blocks, such as a flip, may have another name for their begin. */
const ALL = 1;
/** Minimum fraction of blocks whose title contains no time. */
const PLAIN_TITLES = 0.9;
/** Minimum fraction of lines inside a block, below its title. */
const BELOW = 0.5;
const MOST_LINES = 40;

/**
 * Blocks under titles, `[frame 12]`, with time fields: `begin = …`, `end = …`, or `at = …`. `null` if the log has none.
 */
export function titledReading(log: LogLines): Reading | null {
  const { lines } = log;
  const isWide = lines.some(({ text }) => WIDE_BLANK.test(text));
  for (const form of STARTS) {
    const start = isWide && form === STARTS[1] ? WIDE_START : form;
    const begins = new RegExp(start, 'u');
    const below = lines.filter(({ text }) => !begins.test(text)).length;
    if (below < BELOW * lines.length) continue;
    const entries = joinedBy(lines, start);
    const rows = entries.flatMap(({ text, number }): Row[] => {
      const fields = text.split('\n').length > MOST_LINES ? null : flattenRecord('titled', text);
      return fields === null ? [] : [{ fields, line: number, text }];
    });
    const plain = rows.filter(({ text }) => !hasTime(text.split('\n')[0] ?? ''));
    if (rows.length < MIN_BLOCKS || plain.length < PLAIN_TITLES * rows.length) continue;
    const times = rows.map(
      ({ fields }) => new Map([...fields].filter(([path, value]) => path !== 'title' && isTime(value))),
    );
    if (times.filter(({ size }) => size > 0).length < TIMED * rows.length) continue;
    // The first may be the head, with the reference time.
    const paths = firstFields(times.slice(1), ALL);
    const texts = times.flatMap((own) => firstOf(own, paths) ?? []);
    const stamp = guessStamp(texts, log);
    if (stamp === null || stamp.coverage < TIMED) continue;
    const layout = { kind: 'records', form: 'titled', start } as const;
    const read = fieldReading({ ...log, lines: entries }, layout, rows, { paths, stamp, isFirst: true });
    return { ...read, titles: entries.map(({ text, number }) => ({ text: text.split('\n')[0] ?? '', number })) };
  }
  return null;
}

function hasTime(text: string): boolean {
  return stampsIn(text).some(({ pattern }) => pattern.includes('{second}'));
}
