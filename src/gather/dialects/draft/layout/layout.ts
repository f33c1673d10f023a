import type { RecordForm } from '../../records/flatten-record.js';
import { flattenRecord } from '../../records/flatten-record.js';
import { pairsIn } from '../../records/pair-fields.js';
import { csvLayout, type CsvLayout } from './csv-layout.js';
import { groupedRecords } from './record-groups.js';

/** The structure of a log's lines. */
export type Layout =
  | { readonly kind: 'text' }
  | {
      readonly kind: 'records';
      readonly form: RecordForm;
      /** The pattern of the first line of each multi-line record, or its stamp; `null` if each line is a record. */
      readonly start: string | 'stamp' | null;
    }
  | ({ readonly kind: 'csv' } & CsvLayout);

const SHARE = 0.8;
const SAMPLED = 400;

/** The prevailing form of a log's lines: records, rows of a table, or plain text. */
export function layoutOf(lines: readonly string[]): Layout {
  const sample = spread(lines, SAMPLED);
  const share = (test: (line: string) => boolean): number => sample.filter(test).length / Math.max(1, sample.length);
  if (
    share((line) => /\{.*\}\s*[,\]]*\s*$|^\s*\[.*\]\s*$/s.test(line) && (flattenRecord('json', line)?.size ?? 0) > 1) >=
    SHARE
  )
    return { kind: 'records', form: 'json', start: null };
  const grouped = groupedRecords(lines);
  if (grouped !== null) return { kind: 'records', ...grouped };
  if (share((line) => /<\/?[\p{L}_].*>\s*$/u.test(line) && (flattenRecord('tags', line)?.size ?? 0) > 1) >= SHARE)
    return { kind: 'records', form: 'tags', start: null };
  const csv = csvLayout(lines);
  if (csv !== null) return { kind: 'csv', ...csv };
  // Words outside the pairs say what happened: then the whole line is better read as text.
  const bare = (line: string): boolean => {
    const { fields, words } = pairsIn(line);
    const count = fields.size + (words === '' || fields.has('text') ? 0 : 1);
    return count > 2 && !/\p{L}{2}/u.test(words.replace(/\d[\dT:.,Z+-]*/g, ''));
  };
  return share(bare) >= SHARE ? { kind: 'records', form: 'pairs', start: null } : { kind: 'text' };
}

/** A sample of this many lines, spread over the log. */
export function spread<T>(lines: readonly T[], count: number): T[] {
  if (lines.length <= count) return [...lines];
  const step = lines.length / count;
  return Array.from({ length: count }, (_, i) => lines[Math.floor(i * step)]).filter((line) => line !== undefined);
}
