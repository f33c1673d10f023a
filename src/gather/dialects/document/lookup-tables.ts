/** A table with few rows, each a number and a name, is a lookup table for numbers in other tables. */
const MOST_NAMES = 100;
/** Maximum number of further columns of it, such as a description. */
const MOST_FURTHER = 2;

/** A table of a database dump. */
export interface Table {
  readonly name: string;
  columns: string[];
  readonly rows: string[][];
  /** The lookup table that a column refers to, by the column's name. */
  readonly refers: Map<string, string>;
}

/** The mapping of a lookup table; `null` for any other table. */
export function namesIn({ columns, rows }: Table): ReadonlyMap<string, string> | null {
  const width = rows.reduce((widest, { length }) => Math.max(widest, length), 0);
  const isOne =
    rows.length <= MOST_NAMES &&
    width >= 2 &&
    Math.max(width, columns.length) <= 2 + MOST_FURTHER &&
    rows.every(
      ([number = '', text = '', ...further]) =>
        /^\d{1,4}$/.test(number) &&
        /\p{L}/u.test(text) &&
        further.every((cell) => cell === '' || /\p{L}{2}/u.test(cell)),
    );
  const names = new Map(rows.map(([number = '', text = '']) => [number, text]));
  // With more columns it may be anything else that is numbered, such as a list of targets by night.
  const isDistinct = names.size === rows.length && new Set(names.values()).size === rows.length;
  return isOne && (width === 2 || isDistinct) ? names : null;
}

/** The lookup table of a column: the one it refers to, or one named after the same thing. */
export function namesFor(
  { columns, refers, rows }: Table,
  i: number,
  names: ReadonlyMap<string, ReadonlyMap<string, string>>,
): ReadonlyMap<string, string> | undefined {
  const column = columns[i] ?? '';
  const bare = column.toLowerCase().replace(/^(?:id|nr|no)_?|_?(?:id|nr|no)$/g, '');
  const named =
    refers.get(column) ?? [...names.keys()].find((name) => [column.toLowerCase(), bare].includes(name.toLowerCase()));
  if (named !== undefined) return names.get(named);
  // `treno` of `treni`, `kind` of `kinds`: only if its numbers are in there. Nought may stand for none of them.
  const alike = [...names].filter(
    ([name, own]) =>
      isSameNoun(bare, name.toLowerCase()) && rows.every(({ [i]: cell = '' }) => own.has(cell) || /^0?$/.test(cell)),
  );
  return alike.length === 1 ? alike[0]?.[1] : undefined;
}

/** Minimum length of the common stem of a noun in singular and plural, and maximum of their endings. */
const STEM = 3;
const ENDING = 2;

/** Whether two names differ in their endings only: a noun in singular and plural. */
export function isSameNoun(one: string, other: string): boolean {
  let stem = 0;
  while (stem < one.length && one[stem] === other[stem]) stem++;
  return stem >= STEM && Math.max(one.length, other.length) - stem <= ENDING;
}
