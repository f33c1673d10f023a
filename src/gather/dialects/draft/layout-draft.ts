import type { Reading } from './reading/reading.js';
import { cellsInTurn } from './kinds/columns-in-turn.js';
import type { LayoutDraft } from './report.js';

/** The layout of a log for its draft; `null` for plain text. */
export function layoutDraft({
  layout,
  timePaths,
  timeIsFirst = false,
  join,
  tables,
  fieldLines,
}: Reading): LayoutDraft {
  if (tables !== undefined)
    return {
      kind: 'tables',
      tables: tables.map((table) => ({
        ...table,
        ...cellsInTurn(table.fieldLines, table.timePaths),
        time: table.timePaths,
      })),
    };
  switch (layout.kind) {
    case 'text':
      return null;
    case 'records':
      return { kind: 'records', form: layout.form, start: layout.start, time: timePaths, timeIsFirst, join };
    case 'csv':
      return { ...layout, ...cellsInTurn(fieldLines, timePaths), time: timePaths, timeIsFirst };
  }
}
