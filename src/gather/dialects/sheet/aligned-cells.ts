import type { SheetLine } from './sheet-lines.js';

/** Lines and columns of a block of aligned text. */
const MIN_LINES = 4;
const MIN_COLUMNS = 3;
/** Lines of a text that are in such blocks. */
const MOST = 0.6;
/** Of the lines with a character where a column starts, those whose word begins there; of all, with a blank before. */
const BEGIN = 0.8;
const FREE = 0.85;
const MIN_BEGINS = 2;
/** No one aligns longer lines. */
const MOST_WIDE = 400;
const NEARLY_ALL = 0.9;
/** A line that so many columns would cut through is prose. */
const MOST_CUT = 1;
const RULE = /^[\s\-=_+|~*.·─━═]+$/u;

/**
 * The lines of a text in blocks whose words stand below one another, divided where columns start; `null` if most of
 * the text is otherwise. A dot or dash alone is an empty cell.
 */
export function alignedLines(lines: readonly string[]): SheetLine[] | null {
  const sheet: SheetLine[] = [];
  let inBlocks = 0;
  for (let i = 0; i < lines.length; ) {
    let end = i;
    while (end < lines.length && lines[end]?.trim() !== '') end++;
    const block = lines.slice(i, end);
    const starts = block.length < MIN_LINES ? [] : startsIn(block);
    for (const text of block) {
      const cells = starts.length < MIN_COLUMNS ? [text.trim()] : cellsAt(text, starts);
      if (cells.length > 1 || RULE.test(text)) inBlocks++;
      sheet.push({ text, cells, isTaken: false });
    }
    if (end < lines.length) sheet.push({ text: '', cells: [''], isTaken: false });
    i = end + 1;
  }
  const filled = lines.filter((line) => line.trim() !== '').length;
  return inBlocks < MOST * filled || inBlocks === 0 ? null : sheet;
}

/** Where the columns of a block start. */
function startsIn(block: readonly string[]): number[] {
  const lines = block.filter((line) => !RULE.test(line));
  const width = lines.reduce((most, { length }) => Math.max(most, length), 0);
  const [head = ''] = lines.filter(
    (line) => /\p{L}/u.test(line) && !/\d/.test(line) && /\S \s*\S+ \s*\S/.test(line.trim()),
  );
  // A name and nearly all cells below it that begin here need no second blank before them.
  const isNamed = (at: number, begins: number): boolean =>
    isFilled(head, at) && !isFilled(head, at - 1) && begins >= NEARLY_ALL * lines.length;
  if (width > MOST_WIDE) return [];
  const starts = [Math.min(...lines.map((line) => line.search(/\S/)))];
  for (let at = 1; at < width; at++) {
    const here = lines.filter((line) => isFilled(line, at));
    const begins = here.filter((line) => !isFilled(line, at - 1));
    const free = lines.filter((line) => !isFilled(line, at - 1));
    const isApart = begins.some((line) => !isFilled(line, at - 2)) || isNamed(at, begins.length);
    if (at <= (starts[0] ?? 0) || begins.length < MIN_BEGINS || !isApart) continue;
    if (begins.length >= BEGIN * here.length && free.length >= FREE * lines.length) starts.push(at);
  }
  return starts;
}

function isFilled(line: string, at: number): boolean {
  return at >= 0 && at < line.length && line[at] !== ' ';
}

function cellsAt(line: string, starts: readonly number[]): string[] {
  const cut = starts.filter((at) => isFilled(line, at) && isFilled(line, at - 1)).length;
  if (RULE.test(line) || cut > MOST_CUT || !/\S {2,}\S/.test(line)) return [line.trim()];
  return starts.map((at, i) => {
    const cell = line.slice(i === 0 ? 0 : at, starts[i + 1]).trim();
    return /^[.·–—-]$/.test(cell) ? '' : cell;
  });
}
