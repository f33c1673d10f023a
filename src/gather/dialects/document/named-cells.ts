import type { DocumentNode } from './node.js';

/** A table has so many columns and rows at least. */
const MIN_COLUMNS = 3;
const MIN_ROWS = 5;

interface Cell {
  /** The cell's only attribute, such as a column number; empty if it has none. */
  readonly mark: string;
  readonly text: string;
}

/**
 * Gives the cells of a table in an XML document the names in its row of names: by the number that a cell shares with
 * its name (`<c n="3">`), or by position where a row has as many cells as there are names. Changes the tree.
 */
export function nameCells(root: DocumentNode): void {
  let names: readonly Cell[] | null = null;
  let rows: { readonly node: DocumentNode; readonly cells: readonly Cell[] }[] = [];
  const end = (): void => {
    if (names !== null && rows.length >= MIN_ROWS) for (const { node, cells } of rows) fill(node, cells, names);
    rows = [];
  };
  const waiting = [root];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    const cells = cellsOf(node);
    if (cells === null) {
      waiting.push(...node.children.toReversed());
    } else if (areNames(cells)) {
      end();
      names = cells;
    } else if (names !== null && areBelow(cells, names)) rows.push({ node, cells });
  }
  end();
}

/** The cells of a row: two or more elements of one name, each with a text and at most one attribute. */
function cellsOf({ children, texts }: DocumentNode): readonly Cell[] | null {
  const name = children[0]?.name;
  const isCell = ({ name: own, scalars, texts: inner, children: further }: DocumentNode): boolean =>
    own === name && inner.size === 0 && further.length === 0 && scalars.size - (scalars.has('text') ? 1 : 0) <= 1;
  if (name === undefined || !children.every(isCell)) return null;
  // The first of several texts is the parent's.
  const first = texts.get(name);
  const cells = children.map(
    ({ scalars }): Cell => ({
      mark: [...scalars].find(([key]) => key !== 'text')?.[1] ?? '',
      text: scalars.get('text') ?? '',
    }),
  );
  return first === undefined ? cells : [{ mark: '', text: first }, ...cells];
}

function areNames(cells: readonly Cell[]): boolean {
  const texts = new Set(cells.map(({ text }) => text));
  const marks = new Set(cells.map(({ mark }) => mark));
  return (
    cells.length >= MIN_COLUMNS &&
    texts.size === cells.length &&
    (marks.size === cells.length || (marks.size === 1 && marks.has(''))) &&
    cells.every(({ text }) => /^\p{L}/u.test(text) && !/\d{2}/.test(text))
  );
}

function areBelow(cells: readonly Cell[], names: readonly Cell[]): boolean {
  const isMarked = names[0]?.mark !== '';
  if (!isMarked) return cells.length === names.length && cells.every(({ mark }) => mark === '');
  return cells.every(({ mark }) => names.some((name) => name.mark === mark));
}

function fill(node: DocumentNode, cells: readonly Cell[], names: readonly Cell[]): void {
  const name = node.children[0]?.name ?? '';
  node.texts.delete(name);
  node.children.splice(0);
  for (const [i, { mark, text }] of cells.entries()) {
    const own = mark === '' ? names[i] : names.find((one) => one.mark === mark);
    if (own !== undefined && text !== '') node.texts.set(own.text, text);
  }
}
