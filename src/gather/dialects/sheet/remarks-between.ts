import { CLOCK, filledCells, type SheetLine, type SheetTable } from './sheet-lines.js';

/** From when to when: the text between the two. */
const TO = /^\s*(?:[-–—]|\p{L}{1,4})\s*$/u;
/** A small word in front of a time: `at`, `de`, `von`. */
const SMALL = /(?:^|\s)\p{Ll}{1,5}$/u;
/** Longer words in front of a time say what was done, if nothing else does. */
const MOST_SMALL = 3;
const BULLET = /^[\s*•»>·–-]+/;
const MIN_REMARKS = 3;

/**
 * Remarks that state when things were done, between the rows of a table or beside it: a table of their own, of the time
 * of each, the time up to which it went on, and what it says without them. A line without a time whose
 * words begin below those of a remark goes on with it. The lines are marked as taken; `null` where there are but few.
 */
export function remarksBetween(lines: readonly SheetLine[]): SheetTable | null {
  const rows: string[][] = [];
  const taken: SheetLine[] = [];
  /** Position of the words of the preceding remark in its line; −1 if no remark directly precedes. */
  let indent = -1;
  for (const line of lines) {
    if (line.isTaken) {
      indent = -1;
      continue;
    }
    const cells = filledCells(line);
    const [text = ''] = cells;
    const said = cells.length === 1 ? remarksIn(text) : [];
    const last = rows.at(-1);
    if (said.length > 0) {
      rows.push(...said);
      taken.push(line);
      indent = line.text.search(/\p{L}/u);
    } else if (last !== undefined && cells.length === 1 && indent > 0 && line.text.search(/\S/) === indent) {
      last[2] = `${last[2] ?? ''} ${text}`;
      taken.push(line);
    } else indent = -1;
  }
  if (rows.length < MIN_REMARKS) return null;
  for (const line of taken) line.isTaken = true;
  return { heading: 'remarks', columns: ['from', 'until', 'remark'], rows };
}

/** The remarks of a line: one, or several set apart by semicolons if each states when. */
function remarksIn(text: string): string[][] {
  const parts = text.split(/;\s+/).map(remark);
  const all = parts.length > 1 && parts.every((part) => part !== null) ? parts : [remark(text)];
  return all.flatMap((one) => (one === null ? [] : [one]));
}

/** What a remark says, and when: `null` where it states no time. */
export function remark(text: string): string[] | null {
  const first = CLOCK.exec(text);
  if (first === null) return null;
  const behind = text.slice(first.index + first[0].length);
  const second = CLOCK.exec(behind);
  const isRange = second !== null && TO.test(behind.slice(0, second.index));
  const rest = isRange ? behind.slice(second.index + second[0].length) : behind;
  const front = text.slice(0, first.index).replace(BULLET, '').trimEnd();
  const isBegun = front === '' || front.endsWith(':');
  const before = isBegun ? front : front.replace(SMALL, '');
  // `calm 21:04` has no other word.
  const isWhole = before === '' && front.length > MOST_SMALL && !/\p{L}/u.test(rest);
  const said = `${isWhole ? front : before}${/^[,:;.]/.test(rest) ? '' : ' '}${rest.trim()}`.trim();
  if (!/\p{L}/u.test(said)) return null;
  return [first[0], isRange ? second[0] : '', said];
}
