import { flattenRecord } from '../../records/flatten-record.js';
import { firstOf, isTime } from '../time/first-fields.js';
import { guessStamp } from '../time/stamp-guess.js';
import { spread } from '../layout/layout.js';
import { fieldReading, type Row } from './field-reading.js';
import type { LogLines } from './log-lines.js';
import type { Reading } from './reading.js';

const STAMPS = 500;

/** The records of a document, timed by the first of the fields that each has; `null` if no time can be read. */
export function documentReading(log: LogLines, paths: readonly string[]): Reading | null {
  const rows = log.lines.flatMap(({ text, number }): Row[] => {
    const fields = flattenRecord('json', text);
    // The end of the enclosing element is not the time of a record.
    const own = new Map([...(fields ?? [])].filter(([path, value]) => !path.startsWith('in.') || !isTime(value)));
    return fields === null ? [] : [{ fields: own, line: number, text }];
  });
  const times = rows.flatMap(({ fields }) => firstOf(fields, paths) ?? []);
  const stamp = guessStamp(spread(times, STAMPS), log);
  if (stamp === null) return null;
  return fieldReading(log, { kind: 'records', form: 'json', start: null }, rows, { paths, stamp, isFirst: true });
}
