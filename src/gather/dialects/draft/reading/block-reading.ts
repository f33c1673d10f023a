import { fieldIn, partsOf } from '../../records/block-fields.js';
import { flattenRecord } from '../../records/flatten-record.js';
import type { Reading } from './reading.js';

/** Minimum number of field lines below stamps, and fraction of entries with any. */
const FIELD_SHARE = 0.8;
const ENTRY_SHARE = 0.5;
/** Names that occur in many entries: a name that differs each time is a sentence with a colon in it. */
const MIN_NAMES = 2;

/** The entries of a text log as blocks with one field per line; `null` if they are not. */
export function asBlocks(reading: Reading): Reading | null {
  const { messages } = reading;
  if (reading.entries !== 'stamp') return null;
  const below = messages.map(({ text }) => text.split('\n').slice(1).flatMap(partsOf));
  const lines = below.flat();
  const names = new Map<string, number>();
  for (const line of lines) {
    const name = fieldIn(line)?.name;
    if (name !== undefined) names.set(name, (names.get(name) ?? 0) + 1);
  }
  const common = [...names].filter(([, count]) => count >= Math.max(3, 0.02 * messages.length));
  const fields = common.reduce((sum, [, count]) => sum + count, 0);
  const withFields = below.filter((own) => own.some((line) => fieldIn(line) !== null)).length;
  if (fields < FIELD_SHARE * lines.length || withFields < ENTRY_SHARE * messages.length || common.length < MIN_NAMES)
    return null;
  return {
    ...reading,
    layout: { kind: 'records', form: 'blocks', start: 'stamp' },
    entries: null,
    messages: [],
    fieldLines: messages.flatMap(({ text, line, atMs }) => {
      const record = flattenRecord('blocks', text);
      return record === null || Number.isNaN(atMs) ? [] : [{ fields: record, line, atMs }];
    }),
  };
}
