import { groupBy } from '../../../../model/index.js';
import { escaped } from '../escaped.js';
import type { FieldLine } from './field-line.js';
import { fieldSlots } from './field-slots.js';
import type { KeyedStates } from './keyed-states.js';
import type { Kind, Slot } from './kind.js';
import { stateChange } from '../lexicon/state-changes.js';
import { plainWords } from '../lexicon/plain-words.js';
import { isFrameFile, typeOf } from './values.js';

/** What one column of a table of states has come to. */
interface StateChange {
  readonly column: string;
  /** The states with their values left out, `turns to #`. */
  readonly was: string;
  readonly now: string;
  /** The value in what it says now. */
  readonly value: string | undefined;
  readonly row: FieldLine;
}

const KEPT = 3000;
const HELD = 3;

/** The kinds of change in a table of states, each column that says something else than above, commonest first. */
export function stateKinds(lines: readonly FieldLine[], columns: readonly string[], decimalComma: boolean): Kind[] {
  return kindsOf(changesIn(lines, columns), columns, decimalComma);
}

/** The same of rows that each name a device and the state that it has come to. */
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
    const [shape, value] = withoutValue(now);
    return [{ column, was: withoutValue(was)[0], now: shape, value, row }];
  });
  return kindsOf(changes, [of, state], decimalComma);
}

function kindsOf(changes: readonly StateChange[], columns: readonly string[], decimalComma: boolean): Kind[] {
  const owners = ownersIn(columns);
  return [...groupBy(changes, ({ column, was, now }) => [column, was, now].join('\0')).values()]
    .flatMap((own) => stateKind(own, columns, owners, decimalComma) ?? [])
    .sort((a, b) => b.count - a.count || a.firstLine - b.firstLine);
}

function changesIn(lines: readonly FieldLine[], columns: readonly string[]): StateChange[] {
  const last = new Map<string, string>();
  // A row with none of them tells of something else.
  const rows = lines.filter(({ fields }) => columns.some((column) => (fields.get(column) ?? '') !== ''));
  return rows.flatMap((row) =>
    columns.flatMap((column): StateChange[] => {
      const now = row.fields.get(column) ?? '';
      const was = last.get(column);
      last.set(column, now);
      if (now === (was ?? '') || (now === '' && isFrameFile(was ?? ''))) return [];
      // What devices do as the log begins has begun before, but for what it waits for.
      if (was === undefined && !isHeld(now, column)) return [];
      const [shape, value] = withoutValue(now);
      return [{ column, was: withoutValue(was ?? '')[0], now: shape, value, row }];
    }),
  );
}

/** Whether a state says that everything waits. */
function isHeld(state: string, column: string): boolean {
  return (stateChange(`· → ${state}`, plainWords(column))?.get('hold-begin') ?? 0) >= HELD;
}

/** A state with the first value in it left out: `sharp 14483` is `sharp #`. */
function withoutValue(text: string): readonly [string, string | undefined] {
  if (typeOf([text]) !== 'text') return ['#', text];
  const word = text.split(/\s+/).find((one) => /\d/.test(one) || typeOf([one]) !== 'text');
  return word === undefined ? [text, undefined] : [text.replace(word, '#'), word];
}

function stateKind(
  own: readonly StateChange[],
  columns: readonly string[],
  owners: ReadonlyMap<string, string>,
  decimalComma: boolean,
): Kind | null {
  const [first] = own;
  if (first === undefined) return null;
  const { column, was, now } = first;
  const kept = own.slice(0, KEPT);
  const rows = kept.map(({ row }) => row);
  const values = kept.map(({ value }) => value);
  const distinct = [...new Set(values.flatMap((value) => value ?? []))].slice(0, 24);
  const slot: Slot | null = now.includes('#')
    ? {
        path: null,
        before: now.split('#')[0]?.trim().split(/\s+/).reverse() ?? [],
        after: now.split('#')[1]?.trim() ?? '',
        type: typeOf(distinct),
        values: distinct,
        perLine: values,
      }
    : null;
  const owner = owners.get(column);
  // What else a row states of the same device, or of none, goes with the change.
  const beside = [...new Set(rows.flatMap(({ fields }) => [...fields.keys()]))].filter(
    (path) => !columns.includes(path) || owners.get(path) === owner,
  );
  const others = fieldSlots(
    rows,
    beside.filter((path) => path !== column && (owners.get(path) ?? owner) === owner),
    decimalComma,
  ).slots.filter(({ type }) => type !== 'text' && type !== 'clock');
  const text = `${was === '' ? '·' : was} → ${now === '' ? '·' : now}`;
  return {
    count: own.length,
    firstLine: first.row.line,
    examples: [
      ...new Set(
        kept.map(({ row, value }) => `${column}: ${was} → ${now.replace('#', value ?? row.fields.get(column) ?? '#')}`),
      ),
    ].slice(0, 3),
    summary: `${column}: ${text.replace(/#/g, '…')}`,
    wording: `${column}  ${text}`,
    lead: column.length + 2,
    hints: '',
    slots: slot === null ? others : [slot, ...others],
    lines: rows.map(({ line }) => line),
    atMs: rows.map(({ atMs }) => atMs),
    when: (groups) => ({
      changed: `^${escaped(column)}$`,
      was: patternOf(was, undefined),
      now: patternOf(now, slot === null ? undefined : groups.get(slot)),
    }),
  };
}

function patternOf(state: string, group: string | undefined): string {
  const value = group === undefined ? '.+' : `(?<${group}>.+)`;
  return `^${state.split('#').map(escaped).join(value)}$`;
}

/** The train that each column is about, where columns come twice but for a word: `camera left`, `camera right`. */
function ownersIn(columns: readonly string[]): ReadonlyMap<string, string> {
  const words = columns.map((column) => column.split(/[\s_.-]+/));
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
