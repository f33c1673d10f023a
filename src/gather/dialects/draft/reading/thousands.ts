import type { FieldLine } from '../kinds/field-line.js';
import type { Reading } from './reading.js';

/** A number with points between groups of three digits, `12.480`, and one without any. */
const GROUPED = /^[-+\u2212]?\d{1,3}(?:\.\d{3})+$/;
const SMALL = /^[-+\u2212]?\d{1,3}$/;
/** A number with a decimal comma; and one with a decimal point. */
const COMMA = /(?<![\d.,])\d+,\d{1,2}(?![\d.,])/;
const POINT = /(?<![\p{L}\d.,/:-])\d+\.(?:\d{1,2}|\d{4,})(?![\p{L}\d.,:/-])/u;
/** Minimum number of cells of a column with such points. */
const MIN_CELLS = 5;
const LOOKED_AT = 5000;

/**
 * A log of rows whose numbers have points between groups of digits, and decimal commas, with these points left out: to
 * a dialect with a decimal comma they mean nothing. Any other log as it is.
 */
export function withoutThousands(reading: Reading): Reading {
  const { timePaths, fieldLines } = reading;
  const cells = fieldLines
    .slice(0, LOOKED_AT)
    .flatMap(({ fields }) => [...fields].filter(([path]) => !timePaths.includes(path)));
  if (!cells.some(([, text]) => COMMA.test(text)) || cells.some(([, text]) => POINT.test(text))) return reading;
  const columns = new Map<string, { grouped: number; others: number }>();
  for (const [path, text] of cells) {
    const counts = columns.get(path) ?? { grouped: 0, others: 0 };
    columns.set(path, counts);
    if (GROUPED.test(text)) counts.grouped++;
    else if (!SMALL.test(text) && /^\d/.test(text)) counts.others++;
  }
  const grouped = new Set(
    [...columns].flatMap(([path, { grouped: count, others }]) => (count >= MIN_CELLS && others === 0 ? [path] : [])),
  );
  if (grouped.size === 0) return reading;
  const whole = (line: FieldLine): FieldLine => ({
    ...line,
    fields: new Map(
      [...line.fields].map(([path, text]) => [
        path,
        grouped.has(path) && GROUPED.test(text) ? text.replaceAll('.', '') : text,
      ]),
    ),
  });
  return {
    ...reading,
    fieldLines: fieldLines.map(whole),
    ...(reading.tables === undefined
      ? {}
      : { tables: reading.tables.map((table) => ({ ...table, fieldLines: table.fieldLines.map(whole) })) }),
    hasThousands: true,
  };
}
