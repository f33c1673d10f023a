import type { CompileContext } from './compile-context.js';
import type { CsvRules } from './compiled.js';
import { FIXED } from './fixed-columns.js';
import type { TableFile } from './schema.js';

/** How the rows of a log are split, one entry per table; `null` if the log is not tabular. */
export function compileCsv(context: CompileContext): readonly CsvRules[] | null {
  const { csv } = context.file;
  if (csv === undefined) return null;
  const tables = context.tables.flatMap((table, i) => tableRules(context, table, i) ?? []);
  if (tables.length < context.tables.length) return null;
  tables.forEach((table, i) => {
    const twin = tables.findIndex((other) => isAlike(other, table));
    if (twin >= 0 && twin < i)
      context.problems.add(
        ['csv', i],
        `its header row is the same as that of table ${twin + 1}; say with "below" which line is above each of them`,
      );
  });
  return tables;
}

/** @param i index among several tables */
function tableRules(context: CompileContext, table: TableFile, i: number): CsvRules | null {
  const path = Array.isArray(context.file.csv) ? ['csv', i] : ['csv'];
  if ((table.header === undefined) === (table.columns === undefined)) {
    return context.problems.add(
      path,
      'name the columns once: with "header" if the log has a header row, else with "columns" in their order',
    );
  }
  if (i > 0 && table.header === undefined && table.below === undefined && table.rows === undefined)
    return context.problems.add(
      path,
      'it has no header row; say with "below" which line is above it, or with "rows" which rows are its own',
    );
  if (table.rows !== undefined && (table.header !== undefined || table.below !== undefined))
    return context.problems.add(
      [...path, 'rows'],
      'a table whose rows are found by "rows" has neither "header" nor "below"; name its columns with "columns"',
    );
  const isFirst = typeof table.time === 'object' && 'first' in table.time;
  const time = typeof table.time === 'string' ? [table.time] : 'first' in table.time ? table.time.first : table.time;
  context.checkColumns(time, [...path, 'time'], [table]);
  const { each = [] } = table;
  context.checkColumns(each, [...path, 'each'], [table]);
  const { between = null } = table;
  if (between !== null && each.length === 0)
    return context.problems.add([...path, 'between'], 'name under "each" the columns whose cells hold this mark');
  const { name = `table ${i + 1}`, quote, header = null, columns = null, starts = null } = table;
  const below = table.below === undefined ? null : context.pattern(table.below, [...path, 'below']);
  const rows = table.rows === undefined ? null : context.pattern(table.rows, [...path, 'rows']);
  const delimiter = table.delimiter === 'tab' ? '\t' : table.delimiter;
  const isSet = starts !== null && columns !== null && starts.length === columns.length && isRising(starts);
  if (delimiter === FIXED ? !isSet : starts !== null)
    return context.problems.add(
      [...path, ...(starts === null ? [] : ['starts'])],
      'columns at fixed positions need `delimiter: fixed`, their names under "columns", and under "starts" where ' +
        'each begins, in ascending numbers of characters from 0',
    );
  return { name, below, rows, delimiter, quote, header, columns, starts, each, between, time, timeIsFirst: isFirst };
}

function isRising(numbers: readonly number[]): boolean {
  return numbers.every((one, i) => one > (numbers[i - 1] ?? -1));
}

/** Whether two tables are indistinguishable. */
function isAlike(one: CsvRules, other: CsvRules): boolean {
  const names = (table: CsvRules): string => [...(table.header ?? [])].sort().join('\0');
  return one.header !== null && names(one) === names(other) && one.below?.source === other.below?.source;
}
