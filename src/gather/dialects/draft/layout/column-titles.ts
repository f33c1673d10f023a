import type { Kind, Slot } from '../kinds/kind.js';
import { isNumber } from '../kinds/values.js';
import { plainWords } from '../lexicon/plain-words.js';

/** A column of a blank-aligned table: its start position and its title. */
interface Column {
  readonly start: number;
  readonly title: string;
}

const MIN_COLUMNS = 3;
const LONGEST = 30;
/** A value may begin slightly left of its title: numbers are often right-aligned. */
const LEFT = 3;

/** The column titles of a log in fixed-width columns; empty when no line is such a header. */
export function columnTitles(unstamped: readonly string[]): Column[] {
  for (const line of unstamped) {
    const found = [...line.matchAll(/\S+(?: \S+)*/g)].map(({ 0: title, index }) => ({ start: index, title }));
    const wide = [...line.matchAll(/\S {2,}\S/g)].length;
    const cells = found.flatMap(({ start, title }) => split(start, title));
    const named = cells.every(({ title }) => /^\p{L}/u.test(title) && !isNumber(title) && title.length <= LONGEST);
    if (found.length >= MIN_COLUMNS && wide >= 2 && named) return cells;
  }
  return [];
}

/** Short titles are separated by one blank; `object / remarks` is the title of one column. */
function split(start: number, title: string): Column[] {
  if (/ [^\p{L}\p{N}\s]+ /u.test(title)) return [{ start, title }];
  return [...title.matchAll(/\S+/g)].map(({ 0: word, index }) => ({ start: start + index, title: word }));
}

/**
 * The kind with each slot's column title as the words before it, where it has none.
 *
 * @param isTimeFirst the first column has the times of the lines, and its title their name
 */
export function withTitles(
  kind: Kind,
  columns: readonly Column[],
  lineAt: (line: number) => string,
  isTimeFirst = false,
): Kind {
  const [first] = columns;
  if (first === undefined) return kind;
  const renamed = new Map<Slot, Slot>();
  const slots = kind.slots.map((slot): Slot => {
    const title = slot.type === 'number' || slot.type === 'text' ? titleOf(slot, kind, columns, lineAt) : null;
    if (title === null) return slot;
    const named = { ...slot, before: [...plainWords(title).split(' ').reverse(), ...slot.before] };
    renamed.set(named, slot);
    return named;
  });
  return {
    ...kind,
    ...(isTimeFirst && first.start === 0 ? { timeName: first.title } : {}),
    slots,
    when: (groups) => kind.when(new Map([...groups].map(([slot, name]) => [renamed.get(slot) ?? slot, name]))),
  };
}

function titleOf(slot: Slot, kind: Kind, columns: readonly Column[], lineAt: (line: number) => string): string | null {
  const titles = kind.lines.slice(0, 5).map((line, i) => {
    const value = slot.perLine[i] ?? '';
    const text = lineAt(line);
    return columns.find(({ start }, k) => {
      const end = columns[k + 1]?.start ?? text.length;
      return value !== '' && text.slice(Math.max(0, start - LEFT), end).trim() === value;
    })?.title;
  });
  const [first] = titles;
  return first !== undefined && titles.every((title) => title === first) ? first : null;
}
