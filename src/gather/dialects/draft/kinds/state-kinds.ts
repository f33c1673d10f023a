import { groupBy } from '../../../../model/index.js';
import { ownersByInitials } from './owners-by-initials.js';
import { escaped } from '../escaped.js';
import type { FieldLine } from './field-line.js';
import { fieldSlots } from './field-slots.js';
import type { KeyedStates } from './keyed-states.js';
import { commonestFirst, type Kind, type Slot } from './kind.js';
import type { numbersOfStates } from './numbered-states.js';
import { stateChange } from '../lexicon/state-changes.js';
import { plainWords } from '../lexicon/plain-words.js';
import { isFrameFile, typeOf } from './values.js';

/** The new state of one column of a state table. */
interface StateChange {
  readonly column: string;
  /** The states without values, `turns to #`. */
  readonly was: string;
  readonly now: string;
  /** The values in its current text. */
  readonly values: readonly string[];
  readonly row: FieldLine;
  /** The column whose number changed, where the state stays and the next of its kind begins. */
  readonly by?: string;
}

const KEPT = 3000;
const HELD = 3;

/** The kinds of change in a state table, one for each column that differs from the row above, most common first. */
export function stateKinds(
  lines: readonly FieldLine[],
  columns: readonly string[],
  decimalComma: boolean,
  numbers: ReturnType<typeof numbersOfStates> = new Map(),
): Kind[] {
  return kindsOf([...changesIn(lines, columns), ...renewedIn(lines, numbers)], columns, decimalComma);
}

/** The next of something in a state that goes on, recognised by its number. */
function renewedIn(lines: readonly FieldLine[], numbers: ReturnType<typeof numbersOfStates>): StateChange[] {
  return [...numbers].flatMap(([column, { state, path }]) =>
    lines.flatMap((row, i): StateChange[] => {
      const before = lines[i - 1]?.fields;
      const [was = '', now = ''] = [before?.get(path), row.fields.get(path)];
      if (was === '' || now === '' || was === now || before?.get(column) !== row.fields.get(column)) return [];
      return [{ column, was: `${state} #`, now: `${state} #`, values: [now], row, by: path }];
    }),
  );
}

/** The same for rows that each name a device and its new state. */
export function keyedStateKinds(
  lines: readonly FieldLine[],
  { of, state }: KeyedStates,
  decimalComma: boolean,
): Kind[] {
  const last = new Map<string, string>();
  const changes = lines.flatMap((row): StateChange[] => {
    const column = row.fields.get(of) ?? '';
    const now = row.fields.get(state) ?? '';
    const was = last.get(column) ?? '';
    if (now === '' || column === '' || now === was) return [];
    last.set(column, now);
    const { shape, values } = withoutValues(now);
    return [{ column, was: withoutValues(was).shape, now: shape, values, row }];
  });
  return kindsOf(changes, [of, state], decimalComma);
}

function kindsOf(changes: readonly StateChange[], columns: readonly string[], decimalComma: boolean): Kind[] {
  const paths = new Set(changes.slice(0, KEPT).flatMap(({ row }) => [...row.fields.keys()]));
  const named = ownersIn(columns);
  const owners = new Map([...ownersByInitials(columns, [...paths]), ...ownersOf(paths, columns, named), ...named]);
  return [...groupBy(changes, ({ column, was, now, by = '' }) => [column, was, now, by].join('\0')).values()]
    .flatMap((own) => stateKind(own, columns, owners, decimalComma) ?? [])
    .sort(commonestFirst);
}

function changesIn(lines: readonly FieldLine[], columns: readonly string[]): StateChange[] {
  const last = new Map<string, string>();
  // A row with none of them is about something else.
  const rows = lines.filter(({ fields }) => columns.some((column) => (fields.get(column) ?? '') !== ''));
  return rows.flatMap((row) =>
    columns.flatMap((column): StateChange[] => {
      const now = row.fields.get(column) ?? '';
      const was = last.get(column);
      last.set(column, now);
      if (now === (was ?? '') || (now === '' && isFrameFile(was ?? ''))) return [];
      // What devices do when the log begins started earlier, except waits.
      if (was === undefined && !isHeld(now, column)) return [];
      const { shape, values } = withoutValues(now);
      return [{ column, was: withoutValues(was ?? '').shape, now: shape, values, row }];
    }),
  );
}

/** Whether a state says that everything waits. */
function isHeld(state: string, column: string): boolean {
  return (stateChange(`· → ${state}`, plainWords(column))?.get('hold-begin') ?? 0) >= HELD;
}

/** A state without its values: `exposing 300 s Ha` is `exposing # s #`. */
function withoutValues(text: string): { readonly shape: string; readonly values: readonly string[] } {
  if (typeOf([text]) !== 'text') return { shape: '#', values: [text] };
  const values: string[] = [];
  const leftOut = (word: string): string => {
    if (!/\d/.test(word) && typeOf([word]) === 'text') return word;
    values.push(word);
    return '#';
  };
  const shape = text.replace(/\p{L}[\p{L}-]* \d\S*|\S+/gu, (piece) =>
    // `M 33` is one value, `exposing 300` a word and a value.
    typeOf([piece]) === 'designation' ? leftOut(piece) : piece.split(' ').map(leftOut).join(' '),
  );
  return { shape, values };
}

/** The values in the lines of a state, in order. */
function slotsIn(shape: string, changes: readonly StateChange[]): Slot[] {
  const around = shape.split('#');
  return around.slice(1).map((after, i): Slot => {
    const perLine = changes.map(({ values }) => values[i]);
    const distinct = [...new Set(perLine.flatMap((value) => value ?? []))].slice(0, 24);
    return {
      path: null,
      before: around[i]?.trim().split(/\s+/).reverse() ?? [],
      after: after.trim(),
      type: typeOf(distinct),
      values: distinct,
      perLine,
    };
  });
}

function stateKind(
  own: readonly StateChange[],
  columns: readonly string[],
  owners: ReadonlyMap<string, string>,
  decimalComma: boolean,
): Kind | null {
  const [first] = own;
  if (first === undefined) return null;
  const { column, was, now, by } = first;
  const kept = own.slice(0, KEPT);
  const rows = kept.map(({ row }) => row);
  const slots = slotsIn(now, kept);
  const owner = owners.get(column);
  // Where columns begin with the first letters of devices, the others are about all of these.
  const shared = owner === column ? owner : undefined;
  // Other values in the row about the same device, or about none, go with the change.
  const beside = [...new Set(rows.flatMap(({ fields }) => [...fields.keys()]))].filter(
    (path) => !columns.includes(path) || (owners.get(path) ?? shared) === owner,
  );
  const others = fieldSlots(
    rows,
    beside.filter((path) => path !== column && (owners.get(path) ?? owner) === owner),
    decimalComma,
  ).slots.filter(
    // The last saved file is in all rows; a new one is a change of its own.
    ({ type, path }) =>
      type !== 'text' && type !== 'clock' && !(type === 'file' && path !== null && columns.includes(path)),
  );
  const text = `${was === '' ? '·' : was} → ${now === '' ? '·' : now}`;
  return {
    count: own.length,
    firstLine: first.row.line,
    examples: [...new Set(kept.map(({ row }) => `${column}: ${was} → ${row.fields.get(column) ?? now}`))].slice(0, 3),
    summary: `${column}: ${text.replace(/#/g, '…')}`,
    wording: `${column}  ${text}`,
    lead: column.length + 2,
    hints: '',
    slots: [...slots, ...others],
    lines: rows.map(({ line }) => line),
    atMs: rows.map(({ atMs }) => atMs),
    when: (groups) => (by === undefined ? whenChanged(groups) : { changed: `^${escaped(by)}$`, was: '.', now: '.' }),
  };
  function whenChanged(groups: ReadonlyMap<Slot, string>): Record<string, string> {
    return {
      changed: `^${escaped(column)}$`,
      was: patternOf(was, []),
      now: patternOf(
        now,
        slots.map((slot) => groups.get(slot)),
      ),
    };
  }
}

/** @param groups the names that capture its values, in order */
function patternOf(state: string, groups: readonly (string | undefined)[]): string {
  const parts = state.split('#').map(escaped);
  const value = (i: number): string => (groups[i] === undefined ? '.+' : `(?<${groups[i]}>.+)`);
  return `^${parts.map((part, i) => (i === 0 ? part : `${value(i - 1)}${part}`)).join('')}$`;
}

/** The owner that the name of a column of values names, `heron seconds` beside `heron camera`. */
function ownersOf(
  paths: Iterable<string>,
  columns: readonly string[],
  named: ReadonlyMap<string, string>,
): [string, string][] {
  const owners = new Set(named.values());
  return [...paths].flatMap((path): [string, string][] => {
    const [owner, other] = columns.includes(path) ? [] : path.split(WORDS_APART).filter((word) => owners.has(word));
    return owner === undefined || other !== undefined ? [] : [[path, owner]];
  });
}

const WORDS_APART = /[\s_.-]+/;

/** The train of each column, if columns come in pairs that differ in one word: `camera left`, `camera right`. */
function ownersIn(columns: readonly string[]): ReadonlyMap<string, string> {
  const words = columns.map((column) => column.split(WORDS_APART));
  const names = new Set<string>();
  for (const [i, own] of words.entries())
    for (const other of words.slice(i + 1)) {
      if (own.length !== other.length || own.length < 2) continue;
      const differing = own.flatMap((word, k) => (word === other[k] ? [] : [k]));
      const [k] = differing;
      if (differing.length !== 1 || k === undefined) continue;
      names.add(own[k] ?? '').add(other[k] ?? '');
    }
  return new Map(
    columns.flatMap((column, i) => {
      const name = words[i]?.find((word) => names.has(word));
      return name === undefined ? [] : [[column, name] as const];
    }),
  );
}
