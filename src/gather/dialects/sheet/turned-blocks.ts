import { CLOCK, CLOCK_CELL, filledCells, type SheetLine, type SheetTable } from './sheet-lines.js';

/** Blocks, names that blocks have in common, and columns of one at least. */
const MIN_BLOCKS = 2;
const MIN_NAMES = 3;
const MIN_COLUMNS = 2;
const ALIKE = 0.8;
/** Of the names of the block that has more, those in common: a block may leave out lines that are empty. */
const IN_COMMON = 0.5;
/** A name that states something once for all the columns behind it does so in most blocks. */
const MOSTLY = 0.8;
/** A longer line above blocks is no title. */
const MOST_WORDS = 6;
/** What the column is called that holds a line above blocks which has no name of its own. */
const SECTION = 'section';

interface Block {
  readonly section: readonly string[];
  readonly lines: readonly SheetLine[];
}

/**
 * Blocks in which a row is a statement and a column is a thing, `opened, 22:14:21, 22:17:26, …` above `closed,
 * 22:17:21, …`: a table with a row for each of these columns, preceded by the text above the blocks, such as the name
 * of a camera; blocks with other statements are another table. The lines are marked as taken; empty if there are no
 * such blocks.
 */
export function turnedBlocks(lines: readonly SheetLine[]): SheetTable[] {
  const groups = groupsOf(blocksIn(lines)).filter(({ length }) => length >= MIN_BLOCKS || isWide(lines));
  return groups.length === 0 || !groups.some(({ length }) => length >= MIN_BLOCKS)
    ? []
    : groups.map((alike) => tableOf(alike, groups.length > 1));
}

/** Whether a sheet holds hardly anything but blocks. */
function isWide(lines: readonly SheetLine[]): boolean {
  const taken = blocksIn(lines).reduce((sum, { lines: own }) => sum + own.length, 0);
  return taken >= ALIKE * lines.filter((line) => filledCells(line).length > 2).length;
}

/** The blocks by what their lines are called; the first of each group has the most common names. */
function groupsOf(blocks: readonly Block[]): Block[][] {
  const groups: Block[][] = [];
  for (const block of blocks) {
    const own = groups.find(([first]) => first !== undefined && isAlike(first, block));
    if (own === undefined) groups.push([block]);
    else own.push(block);
  }
  return groups;
}

/** @param isOneOfSeveral blocks of other names are other tables: the text above them is what the table is about */
function tableOf(alike: readonly Block[], isOneOfSeveral: boolean): SheetTable {
  const names = [...new Set(alike.flatMap(namesOf))];
  const once = names.filter((name) => isSaidOnce(alike, name) && !isTimed(alike, name));
  const titles = new Set(alike.map(({ section }) => section.join(' ')));
  const [only = ''] = titles;
  const isHeading = titles.size === 1 && isOneOfSeveral && only !== '';
  const sections = !isHeading && alike.some(hasSection);
  const title = alike.find(hasSection)?.section;
  const called = title !== undefined && title.length > 1 ? (title[0] ?? SECTION) : SECTION;
  const rows = alike.flatMap((block) => {
    const saying = title !== undefined && title.length > 1 ? block.section[1] : block.section[0];
    return columnsOf(block, names, once).map((row) => (sections ? [saying ?? '', ...row] : row));
  });
  for (const { lines: own } of alike) for (const line of own) line.isTaken = true;
  return { heading: isHeading ? only : '', columns: sections ? [called, ...names] : names, rows };
}

const hasSection = ({ section }: Block): boolean => section.length > 0;
const namesOf = ({ lines }: Block): string[] => lines.map(({ cells }) => cells[0] ?? '');

/** Lines one below the other, each with a name of its own in front, of which one at least holds times alone. */
function blocksIn(lines: readonly SheetLine[]): Block[] {
  const blocks: Block[] = [];
  let own: SheetLine[] = [];
  let section: readonly string[] = [];
  const end = (): void => {
    if (isBlock(own)) blocks.push({ section, lines: own });
    own = [];
  };
  for (const line of lines) {
    const [name = ''] = line.cells;
    const filled = filledCells(line);
    const isNamed = /\p{L}/u.test(name) && !isTimeCell(name) && line.cells.length > MIN_COLUMNS;
    const isAgain = own.some(({ cells }) => cells[0] === name);
    if (!isNamed || isAgain || line.isTaken) end();
    if (isNamed && !line.isTaken) own.push(line);
    else if (filled.length > 0 && filled.length <= 2 && isTitle(withoutRange(filled.join(' ')))) {
      section = filled.map(withoutRange).filter((cell) => cell !== '');
      if (line.cells.length === 1 || filled.length === 1)
        line.isTaken ||= withoutRange(filled.join(' ')) !== filled.join(' ');
    }
  }
  end();
  return blocks;
}

/** `exposures 13 to 18`: which columns of all follow. */
const RANGE = /[\s(,]*(?:(?:no|nr|n|nº|n°|№|#)\.?\s?)?\d{1,4}\s?(?:[-–—…]|\.\.+|\p{L}{1,3})\s?\d{1,4}\)?\s*$/iu;
const withoutRange = (text: string): string => text.replace(RANGE, '');

function isTitle(text: string): boolean {
  return !/\d{2}/.test(text) && text.split(' ').length <= MOST_WORDS;
}

/** A time of day, behind a date or alone. */
const DATED = /^(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.](?:\d{4}|\d{2}))[T ]{1,2}/;
const isTimeCell = (cell: string): boolean =>
  CLOCK_CELL.test(cell) ||
  (DATED.test(cell) && CLOCK_CELL.test(cell.replace(DATED, '').replace(/(?:Z|[+-]\d{2}:?\d{2})$/, '')));

function isBlock(lines: readonly SheetLine[]): boolean {
  const hasTimes = lines.some(({ cells }) => {
    const filled = cells.slice(1).filter((cell) => cell !== '');
    return filled.length >= MIN_COLUMNS && filled.every((cell) => isTimeCell(cell) || /^[?¿–-]+$/.test(cell));
  });
  return lines.length >= MIN_NAMES && hasTimes;
}

function isAlike(one: Block, other: Block): boolean {
  const [names, own] = [namesOf(one), namesOf(other)];
  const both = own.filter((name) => names.includes(name)).length;
  return (
    both >= MIN_NAMES && both >= ALIKE * Math.min(names.length, own.length) - 1 && both >= IN_COMMON * names.length
  );
}

/** Whether a name is said of the first column of most blocks, and of hardly any behind it. */
function isSaidOnce(blocks: readonly Block[], name: string): boolean {
  const rows = blocks.flatMap(({ lines }) => lines.find(({ cells }) => cells[0] === name) ?? []);
  const firstAlone = rows.filter(
    (row) => (row.cells[1] ?? '') !== '' && filledCells(row).length * 2 <= row.cells.length,
  );
  return firstAlone.length >= MOSTLY * rows.length;
}

/** Whether a name states times: what went on before one column did not before the next. */
function isTimed(blocks: readonly Block[], name: string): boolean {
  return blocks.some(({ lines }) =>
    lines.some(({ cells }) => cells[0] === name && cells.slice(1).some((cell) => CLOCK.test(cell))),
  );
}

/** The columns of a block as rows. */
function columnsOf({ lines }: Block, names: readonly string[], once: readonly string[]): string[][] {
  const width = Math.max(...lines.map(({ cells }) => cells.length));
  const said = new Map(lines.map(({ cells }) => [cells[0] ?? '', cells] as const));
  const last = new Map<string, string>();
  const rows: string[][] = [];
  for (let column = 1; column < width; column++) {
    const row = names.map((name) => {
      const cell = said.get(name)?.[column] ?? '';
      if (!once.includes(name)) return cell;
      if (cell !== '') last.set(name, cell);
      return last.get(name) ?? '';
    });
    if (row.some(isTimeCell)) rows.push(row);
  }
  return rows;
}
