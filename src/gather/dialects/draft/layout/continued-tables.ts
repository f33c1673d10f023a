import { groupBy } from '../../../../model/index.js';
import type { HeadLine } from '../time/base-lines.js';
import { splitRow } from './csv-layout.js';

/** Rows under one header row, and under which heading they stand. */
export interface TablePart {
  readonly columns: readonly string[];
  readonly heading: string;
  readonly rows: readonly HeadLine[];
}

const CLOCK = /(?<!\d)(\d{1,2})[:.h](\d{2})/;
const DAY_MIN = 24 * 60;
/** Maximum time between the last row under a heading and the first under the next, minutes. */
const MAX_PAUSE_MIN = 4 * 60;
/** Minimum number of letters of a text that says what happened, and fraction of such texts found under both. */
const LETTERS = 6;
const SHARED = 0.5;

/**
 * Which parts continue the table of an earlier one, by index; others have their own. A log of events may have a heading
 * for each target or phase of the night: the rows below it say the same as those above and continue them in time,
 * unlike those of another train, which begin anew, or of another matter.
 */
export function continuedTables(parts: readonly TablePart[], delimiter: string): readonly number[] {
  const columnsOf = ({ columns }: TablePart): string => columns.join('\0');
  const groups = groupBy(parts, columnsOf);
  const inTurn = new Set(
    [...groups].flatMap(([columns, twins]) =>
      twins.every((part, i) => i === 0 || isNext(twins[i - 1] ?? part, part)) ? [columns] : [],
    ),
  );
  const owners: number[] = [];
  parts.forEach((part, i) => {
    const owner = owners[i - 1];
    const before = parts[i - 1];
    const isTwin = before !== undefined && columnsOf(before) === columnsOf(part) && inTurn.has(columnsOf(part));
    if (!isTwin || owner === undefined) return owners.push(i);
    const above = { ...part, rows: parts.filter((_, nth) => owners[nth] === owner).flatMap(({ rows }) => rows) };
    // What a short part says, such as that of the preparations, may be said again only later.
    const later = parts.slice(i).filter((one) => columnsOf(one) === columnsOf(part));
    const all = { ...part, rows: later.flatMap(({ rows }) => rows) };
    return owners.push(saysSame(above, part, delimiter) || saysSame(above, all, delimiter) ? owner : i);
  });
  return owners;
}

/** Whether the first time of a part follows the last of the one above; over midnight, too. */
function isNext(above: TablePart, below: TablePart): boolean {
  const last = above.rows.findLast(({ text }) => CLOCK.test(text));
  const first = below.rows.find(({ text }) => CLOCK.test(text));
  if (last === undefined || first === undefined) return false;
  const pause = (minuteOf(first.text) - minuteOf(last.text) + DAY_MIN) % DAY_MIN;
  return pause <= MAX_PAUSE_MIN;
}

function minuteOf(text: string): number {
  const [, hour = '', minute = ''] = CLOCK.exec(text) ?? [];
  return 60 * Number(hour) + Number(minute);
}

/** Whether half of the texts of one column occur under both headings. */
function saysSame(a: TablePart, b: TablePart, delimiter: string): boolean {
  return a.columns.some((_, column) => {
    const [one, other] = [textsIn(a, column, delimiter), textsIn(b, column, delimiter)];
    const shared = [...one].filter((text) => other.has(text)).length;
    return shared > 0 && shared >= SHARED * Math.min(one.size, other.size);
  });
}

function textsIn({ rows }: TablePart, column: number, delimiter: string): ReadonlySet<string> {
  const cells = rows.map(({ text }) => (splitRow(text, delimiter)[column] ?? '').replace(/\d+/g, '#'));
  return new Set(cells.filter((cell) => cell.replace(/[^\p{L}]/gu, '').length >= LETTERS));
}
