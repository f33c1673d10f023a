import { exposureTable } from '../exposures/exposure-table.js';
import { joined, joinField } from '../layout/join-field.js';
import { fixedLayout } from '../layout/fixed-layout.js';
import { layoutOf, spread, type Layout } from '../layout/layout.js';
import { joinedBy } from '../layout/record-groups.js';
import { farCountInText } from '../time/composed/far-counts.js';
import { withCommonText } from '../time/common-text.js';
import type { HeadLine } from '../time/base-lines.js';
import { headedTimes } from '../time/headed-times.js';
import { withOffsetField } from '../time/offset-field.js';
import type { StampGuess } from '../time/guess.js';
import { guessStamp } from '../time/stamp-guess.js';
import { withSecondForm } from '../time/second-form.js';
import { orSinceInCells, sinceInText } from '../time/since-previous.js';
import { timeInCells, type TimeCells } from '../time/time-cells.js';
import { asBlocks } from './block-reading.js';
import { carriedTimes } from '../time/carried-times.js';
import { cardsBesideLines } from './cards-beside-lines.js';
import { documentReading } from './document-reading.js';
import { fieldReading, fieldsOf } from './field-reading.js';
import { logLines, type LogLines } from './log-lines.js';
import type { Reading } from './reading.js';
import { innerStamps, stampedParts } from './stamped-parts.js';
import { tablesReading } from './tables-reading.js';
import { headedReading, textReading } from './text-reading.js';
import { withoutThousands } from './thousands.js';
import { cardsUnderTitles } from './cards-under-titles.js';
import { titledReading } from './titled-reading.js';
import { typedReading } from './typed-reading.js';

/** Number of lines whose stamps are compared to find the time pattern. */
const STAMP_LINES = 500;

/**
 * Analyses the structure of a log.
 *
 * @param lines its non-empty lines, with their numbers
 * @param file its name may state the date
 * @param document if the lines are the records of a document, its time fields
 * @param asText the lines are read as sentences, whatever they look like
 * @param proved their stamps, where something outside the log proves them: the lines are sentences behind these
 */
export function readingOf(
  lines: readonly HeadLine[],
  file = '',
  document: readonly string[] | null = null,
  asText = false,
  proved?: StampGuess,
): Reading {
  if (proved !== undefined) return textReading(logLines(lines, file), proved);
  const texts = lines.map(({ text }) => text);
  const layout: Layout = asText ? { kind: 'text' } : layoutOf(texts);
  const log = logLines(lines, file);
  if (document !== null) {
    const own = documentReading(log, document);
    if (own !== null) return own;
  }
  const mayHaveTables = !asText && layout.kind !== 'records';
  const typed = mayHaveTables ? typedReading(log, layout) : null;
  if (typed !== null) return withoutThousands(typed);
  const tables = mayHaveTables ? tablesReading(log) : null;
  if (tables !== null) return withoutThousands(tables);
  const inFields = asText ? null : fieldsReading(log, layout);
  if (inFields !== null) return withoutThousands(inFields);
  const headed = headedTimes(lines);
  if (headed !== null) return headedReading(lines, headed);
  const cards = cardsBesideLines(log);
  if (cards !== null) return cards;
  const titled = titledReading(log);
  if (titled !== null) return titled;
  const inner = innerStamps(texts);
  if (inner !== null) return partsReading(lines, inner);
  const guess =
    farCountInText(lines.slice(0, STAMP_LINES), log.heads ?? []) ??
    guessStamp(spread(texts, STAMP_LINES), log) ??
    (log.hasBase ? sinceInText(lines) : null);
  const stamp = withCommonText(withSecondForm(guess, texts), texts);
  const plain = textReading(log, stamp);
  return asBlocks(plain) ?? cardsUnderTitles(plain, log) ?? plain;
}

/** A log of records or rows; a text log may be a table of exposures with fixed-width cells. */
function fieldsReading(log: LogLines, layout: Layout): Reading | null {
  if (layout.kind !== 'text') return recordsReading(log, layout);
  const fixed = fixedLayout(log.lines.map(({ text }) => text));
  const reading = fixed === null ? null : recordsReading(log, { kind: 'csv', ...fixed });
  return reading !== null && exposureTable(reading.fieldLines, reading.timePaths) !== null ? reading : null;
}

function recordsReading(log: LogLines, layout: Layout): Reading | null {
  const entries = layout.kind === 'records' && layout.start !== null ? joinedBy(log.lines, layout.start) : log.lines;
  const written = entries.flatMap(({ text, number }, i) => {
    const fields = fieldsOf(layout, text, i);
    return fields === null ? [] : [{ fields, line: number, text }];
  });
  const carried = layout.kind === 'csv' ? carriedTimes(written) : null;
  const records = carried ?? written;
  const inCells = timeInCells(
    records.map((row) => row.fields),
    log,
  );
  const ownTime = withOffsetField(
    log.hasBase
      ? orSinceInCells(
          inCells,
          records.map((row) => ({ ...row, number: row.line })),
        )
      : inCells,
    records.map((row) => row.fields),
  );
  const cellTime: TimeCells | null =
    ownTime === null || carried === null ? ownTime : { ...ownTime, stamp: { ...ownTime.stamp, carry: true } };
  if (cellTime === null && (layout.kind !== 'records' || layout.start !== null)) return null;
  const fields = records.map((row) => row.fields);
  const join = layout.kind === 'records' ? joinField(fields, cellTime?.paths ?? []) : null;
  const whole = join === null ? fields : joined(fields, join);
  const rows = records.flatMap((row, i) => {
    const own = whole[i] ?? null;
    return own === null ? [] : [{ ...row, fields: own }];
  });
  return { ...fieldReading({ ...log, lines: entries }, layout, rows, cellTime), join: join?.path ?? null };
}

/** A log in whose lines each stamp begins a message. */
function partsReading(lines: readonly HeadLine[], pattern: string): Reading {
  const { messages, loose } = stampedParts(lines, pattern);
  const stamp = {
    pattern,
    at: 'anywhere' as const,
    coverage: 1 - loose.length / Math.max(1, lines.length),
    dayFirstAssumed: false,
    forward: 1,
  };
  return {
    layout: { kind: 'text' },
    stamp,
    timePaths: [],
    entries: 'stamps',
    messages,
    fieldLines: [],
    unstamped: loose,
    loose,
    bases: [],
    doubtfulTimes: false,
    counted: null,
    join: null,
  };
}
