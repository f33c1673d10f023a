import { UNKNOWN } from '../../../model/index.js';
import type { AreaStyle } from '../../design/area.js';

/** A cell of a table, ready to print. */
export interface Cell {
  readonly text: string;
  /** Style classes: `n` for figures, `v-…` for verdicts, `screen` for what is not printed. */
  readonly className?: string;
  /** Sort key if the text would sort wrongly: a number, or a time in ms. */
  readonly value?: string;
  /** Words omitted on paper: they are the normal case, so that the exceptions stand out. */
  readonly quiet?: boolean;
  /** Anchor within the page. */
  readonly anchor?: string;
  /** Another page, relative to this one. */
  readonly href?: string;
  /** A small sample before the text. */
  readonly swatch?: AreaStyle;
  /** Lines under the text, the second and later ones paler. */
  readonly lines?: readonly string[];
  /** Statements under the text, each with its evidence and its source below it. */
  readonly statements?: readonly { readonly head: string; readonly details: readonly string[] }[];
  /** The cell names its row. */
  readonly header?: boolean;
  /** Number of columns it spans, if more than one. */
  readonly columns?: number;
}

export interface Column {
  readonly label: string;
  readonly className?: string;
}

/** A head over several columns. */
export interface Group {
  readonly label: string;
  readonly span: number;
  /** How many of its columns are printed, if not all. */
  readonly paper?: { readonly span: number };
}

export interface Row {
  readonly cells: readonly Cell[];
  readonly id?: string;
  /** `sum` has a single rule above it, `total` a single rule above and a double rule below. */
  readonly kind?: 'sum' | 'total';
  /** Not printed. */
  readonly offPaper?: boolean;
}

export interface Table {
  readonly caption: string;
  /** Headers over several columns each. */
  readonly groups?: readonly Group[];
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Rows under separate headers, in place of `rows`. */
  readonly bodies?: readonly { readonly head: string; readonly rows: readonly Row[] }[];
  readonly foot?: readonly Row[];
  /** A click on a column's header sorts by it. */
  readonly sortable?: boolean;
  /** A note under the table. */
  readonly note?: string;
  /** A note under the printed table. */
  readonly paperNote?: string;
  /** Style class for tables with specific widths. */
  readonly name?: string;
}

/** A column of words, or of figures (right-aligned). */
export function column(
  label: string,
  kind: 'words' | 'figures' = 'words',
  place: 'everywhere' | 'screen' = 'everywhere',
): Column {
  const className = [...(kind === 'figures' ? ['n'] : []), ...(place === 'screen' ? ['screen'] : [])].join(' ');
  return { label, ...(className === '' ? {} : { className }) };
}

/** Headers over columns, some of which are not printed. */
export function groupsOver(columns: readonly Column[], groups: readonly Group[]): Group[] {
  let next = 0;
  return groups.map((group) => {
    const own = columns.slice(next, (next += group.span));
    const kept = own.filter((one) => !(one.className ?? '').split(' ').includes('screen')).length;
    return kept === group.span ? group : { ...group, paper: { span: kept } };
  });
}

/**
 * Rows of which only the first are printed: a list that nobody reads on paper, and that takes the browser longer to
 * print than all the rest.
 *
 * @param note the printed note about the omitted ones, given their number
 */
export function firstOnPaper(
  rows: readonly Row[],
  most: number,
  note: (others: number) => string,
): Pick<Table, 'rows' | 'paperNote'> {
  if (rows.length <= most) return { rows };
  return {
    rows: rows.map((row, i) => (i < most ? row : { ...row, offPaper: true })),
    paperNote: note(rows.length - most),
  };
}

const hasText = (cell: Cell | undefined): boolean => cell !== undefined && !['', UNKNOWN].includes(cell.text);

/** Omits columns without any content: a column of dashes costs attention without informing. */
export function withoutEmptyColumns(table: Table): Table {
  const rows = [...table.rows, ...(table.bodies ?? []).flatMap((body) => body.rows)];
  const isEmpty = table.columns.map((_, i) => rows.length > 0 && rows.every(({ cells }) => !hasText(cells[i])));
  if (!isEmpty.includes(true)) return table;
  const filled = <T>(list: readonly T[]): T[] => list.filter((_, i) => isEmpty[i] !== true);
  const short = (list: readonly Row[]): Row[] => list.map((row) => ({ ...row, cells: filled(row.cells) }));
  let next = 0;
  const groups = table.groups?.flatMap((group) => {
    const span = filled(table.columns.map((_, i) => i)).filter((i) => i >= next && i < next + group.span).length;
    next += group.span;
    return span === 0 ? [] : [{ ...group, span }];
  });
  return {
    ...table,
    columns: filled(table.columns),
    rows: short(table.rows),
    ...(groups === undefined ? {} : { groups }),
    ...(table.bodies === undefined
      ? {}
      : { bodies: table.bodies.map((body) => ({ ...body, rows: short(body.rows) })) }),
    ...(table.foot === undefined ? {} : { foot: short(table.foot) }),
  };
}

/** A cell of words. */
export function words(text: string, more: Omit<Cell, 'text'> = {}): Cell {
  return { text, ...more };
}

/** A cell of figures, with a sort key if its text would sort wrongly. */
export function figures(text: string, value?: number | null, more: Omit<Cell, 'text' | 'value'> = {}): Cell {
  const sortable = value !== undefined && value !== null && Number.isFinite(value) && !/^\d+(\.\d+)?$/.test(text);
  return {
    text,
    ...more,
    className: ['n', ...(more.className === undefined ? [] : [more.className])].join(' '),
    ...(sortable ? { value: String(Number(value.toFixed(4))) } : {}),
  };
}

/** The same cell, not printed. */
export function screenOnly(cell: Cell): Cell {
  return { ...cell, className: [...(cell.className === undefined ? [] : [cell.className]), 'screen'].join(' ') };
}
