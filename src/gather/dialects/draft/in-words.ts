import { cellsInWords } from './coded-cells.js';
import { messagesInWords } from './coded-messages.js';
import type { InWords } from './coded.js';
import type { Reading } from './reading/reading.js';

/** A log with the meanings from its own legend in place of codes, as it is if it has none. */
export function inWords(reading: Reading): InWords {
  const coded = reading.layout.kind === 'text' ? messagesInWords(reading) : cellsInWords(reading);
  return coded ?? { reading, asWritten: (kind) => kind, legend: new Set() };
}
