import type { FieldLine } from './field-line.js';
import { keyedStates, type KeyedStates } from './keyed-states.js';
import type { Kind } from './kind.js';
import { numbersOfStates } from './numbered-states.js';
import { stateColumns } from './snapshots.js';
import { keyedStateKinds, stateKinds } from './state-kinds.js';

/** The rows of a table, or the records of a log. */
export interface Rows {
  readonly fieldLines: readonly FieldLine[];
  readonly timePaths: readonly string[];
}

/** Rows that each state what all devices do, and the columns for it; one of several tables may be like this. */
export function rowsOfStates(tables: readonly Rows[]): {
  readonly rows: Rows | null;
  readonly columns: readonly string[];
} {
  for (const rows of tables) {
    const columns = stateColumns(rows.fieldLines, rows.timePaths);
    if (columns.length > 0) return { rows, columns };
  }
  return { rows: null, columns: [] };
}

/** The kinds of a log, and the states in its rows, if any. */
export interface StatedKinds {
  readonly kinds: readonly Kind[];
  readonly states: readonly string[];
  readonly keyed: KeyedStates | null;
}

/**
 * The kinds, with state changes from row to row replacing the rows that state what devices do.
 *
 * @param kinds of all rows and lines
 * @param isGuidingAlone the log has guiding samples and few other lines
 */
export function withStates(
  kinds: readonly Kind[],
  tables: readonly Rows[],
  { rows, columns }: ReturnType<typeof rowsOfStates>,
  decimalComma: boolean,
  isGuidingAlone = false,
): StatedKinds {
  // Such a log has its events on lines between the samples, unless each sample has the state of the guider.
  if (isGuidingAlone && columns.length !== 1) return { kinds, states: [], keyed: null };
  if (rows !== null) {
    const lines = new Set(rows.fieldLines.map(({ line }) => line));
    const numbers = numbersOfStates(rows.fieldLines, columns);
    const changes = stateKinds(rows.fieldLines, columns, decimalComma, numbers);
    const states = [...columns, ...[...numbers.values()].map(({ path }) => path)];
    return { kinds: [...changes, ...kinds.filter((kind) => !isAmong(kind, lines))], states, keyed: null };
  }
  for (const { fieldLines, timePaths } of tables) {
    const keyed = keyedStates(fieldLines, timePaths);
    if (keyed === null) continue;
    const changes = keyedStateKinds(fieldLines, keyed, decimalComma);
    const lines = new Set(changes.flatMap((kind) => kind.lines));
    return { kinds: [...changes, ...kinds.filter((kind) => !isAmong(kind, lines))], states: [], keyed };
  }
  return { kinds, states: [], keyed: null };
}

function isAmong(kind: Kind, lines: ReadonlySet<number>): boolean {
  return kind.lines.some((line) => lines.has(line));
}
