import { fieldIn, partsOf } from '../../records/block-fields.js';
import { flattenRecord } from '../../records/flatten-record.js';
import type { Reading } from './reading.js';

/** Lines below the stamps that are fields, at least, and entries that have any. */
const FIELD_SHARE = 0.8;
const ENTRY_SHARE = 0.5;
/** Names that stand in many entries: what is called otherwise each time is a sentence with a colon in it. */
const MIN_NAMES = 2;

/** The entries of a text log as blocks of a field a line; `null` where they are none. */
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
