import { exposureKinds } from '../exposures/exposure-kinds.js';
import { rowKinds } from '../exposures/row-kinds.js';
import { withSamplesApart } from '../guiding-in-rows.js';
import { columnTitles, withTitles } from '../layout/column-titles.js';
import type { JobsDraft } from '../reading/jobs.js';
import type { Reading } from '../reading/reading.js';
import type { LogSample } from '../sample.js';
import { withClockColumns } from './clock-columns.js';
import { withClockLengths } from './clock-lengths.js';
import { fieldKinds } from './field-kinds.js';
import type { FieldLine } from './field-line.js';
import { jobKinds } from './job-kinds.js';
import type { Kind } from './kind.js';
import { kindsOfTables } from './kinds-of-tables.js';
import { textKinds, type Message } from './text-kinds.js';

/** Number of lines at the beginning that may name the columns of a table. */
const HEAD_LINES = 60;

/** A log to be sorted into kinds of line. */
export interface ReadLog {
  readonly sample: LogSample;
  readonly reading: Reading;
  readonly decimalComma: boolean;
  /** Its records or rows, without the samples among them. */
  readonly fieldLines: readonly FieldLine[];
  /** Its messages, with changes of state instead of states. */
  readonly messages: readonly Message[];
  readonly jobs: JobsDraft | null;
  /** The short codes that a legend explains. */
  readonly codes: ReadonlyMap<string, unknown>;
}

/** The kinds of line of a log, whatever its layout. */
export function kindsOfLog(log: ReadLog): readonly Kind[] {
  const { sample, reading, decimalComma, jobs, messages } = log;
  if (reading.layout.kind === 'text') {
    if (jobs !== null) return jobKinds(reading.messages, jobs, decimalComma);
    return withClockLengths(tableKinds(messageKindsOf(log), reading, sample));
  }
  if (reading.tables !== undefined) return kindsOfTables(reading.tables, decimalComma);
  // Stamped lines next to records are messages.
  return [...recordKinds(log), ...(messages.length === 0 ? [] : withClockLengths(messageKindsOf(log)))];
}

function messageKindsOf({ messages, decimalComma, codes }: ReadLog): readonly Kind[] {
  return textKinds(messages, decimalComma, undefined, codes.keys());
}

function recordKinds({ sample, reading, fieldLines, decimalComma }: ReadLog): readonly Kind[] {
  const { timePaths } = reading;
  const form = { timePaths, decimalComma };
  if (reading.layout.kind === 'csv') return rowKinds(fieldLines, form);
  const exposures = isRow(reading) ? exposureKinds(fieldLines, form) : null;
  if (exposures !== null) return exposures;
  const parts = sample.document == null ? [fieldLines] : withSamplesApart(fieldLines, timePaths);
  return withClockColumns(parts.flatMap((own) => fieldKinds(own, form, true)));
}

/** A layout with a line's fields side by side; the title of a block names its train in words of its own. */
function isRow({ layout }: Reading): boolean {
  if (layout.kind !== 'records') return layout.kind === 'csv';
  return layout.form !== 'titled' && (layout.form !== 'blocks' || layout.start !== 'stamp');
}

/** Kinds of a fixed-width table, with the header as names of their values. */
function tableKinds(kinds: readonly Kind[], { unstamped, stamp }: Reading, sample: LogSample): readonly Kind[] {
  const columns = columnTitles(unstamped.slice(0, HEAD_LINES).flatMap(({ number }) => sample.lines[number - 1] ?? []));
  const isTimeFirst = stamp?.at === 'start';
  return kinds.map((kind) => withTitles(kind, columns, (line) => sample.lines[line - 1] ?? '', isTimeFirst));
}
