import { groupBy } from '../../../../model/index.js';
import { isFilterName, isFrameFile, isNumber } from './values.js';
import { type FieldLine, pathsOf } from './field-line.js';

/** A log of changes: the field that names a property, and those with its value before and now. */
export interface Changes {
  readonly of: string;
  readonly before: string;
  readonly now: string;
}

/** Minimum number of records whose property had a value before, and the fraction of them that repeat it. */
const MIN_ROWS = 20;
const NEARLY_ALL = 0.9;
/** Records looked at, the fraction of them that have each of the fields, and the number of such fields at most. */
const LOOKED_AT = 600;
const FILLED = 0.3;
const MOST_FIELDS = 10;
/** Weight of properties that have no old value at first. */
const BEGUN = 0.05;
/** Fraction of records that have both values: something that is raised and lowered has one of them at a time. */
const BOTH = 0.7;
/** Fewer are devices, each with its own states: words tell what they do. */
const PROPERTIES = { least: 8, most: 60 } as const;
/** Words for the lack of a value. */
const NOTHING = /^(?:|null|none|nil|unset|undefined|n\/a|[-–—~?])$/i;
/** What a value may be beside words: a name or a number of which there are many. */
export const ANY = '#';
const MOST_STATES = 8;
const LONGEST = 24;

/**
 * The fields of a log whose records each name a property, its old value and its new one, `k=mount.mode was=tracking
 * now=slewing`: the old value is what the last record of that property gave as the new one. `null` if it is none, or if
 * all properties are states of devices, which words tell as well.
 */
export function changesIn(lines: readonly FieldLine[], timePaths: readonly string[]): Changes | null {
  const sample = lines.slice(0, LOOKED_AT);
  const count = (path: string): number => sample.filter(({ fields }) => (fields.get(path) ?? '') !== '').length;
  const paths = pathsOf(sample, timePaths).filter((path) => count(path) >= FILLED * sample.length);
  if (sample.length < MIN_ROWS || paths.length < 3 || paths.length > MOST_FIELDS) return null;
  for (const of of paths) {
    const names = new Set(sample.map(({ fields }) => fields.get(of) ?? ''));
    if (names.size < PROPERTIES.least || names.size > PROPERTIES.most) continue;
    if (![...names].every((name) => /\p{L}{2}/u.test(name))) continue;
    const rows = [...groupBy(sample, ({ fields }) => fields.get(of) ?? '').values()];
    const others = paths.filter((path) => path !== of);
    const pairs = others.flatMap((before) =>
      others.flatMap((now) => (before === now ? [] : [{ of, before, now, share: shareOf(rows, before, now) }])),
    );
    // What goes to and fro between two states does so in the other direction as well.
    const [best] = pairs.sort((a, b) => b.share - a.share);
    if (best !== undefined && best.share >= NEARLY_ALL && rows.some((own) => isOtherThanStates(own, best.now)))
      return best;
  }
  return null;
}

/**
 * The fraction of records whose old value is the new one of the record before; more where properties have no old value
 * at first, 0 where they are too few, or where values stay the same.
 */
function shareOf(rows: readonly (readonly FieldLine[])[], before: string, now: string): number {
  let known = 0;
  let both = 0;
  let same = 0;
  let still = 0;
  let begun = 0;
  for (const own of rows)
    for (const [i, { fields }] of own.entries()) {
      const [old, last, value] = [fields.get(before) ?? '', own[i - 1]?.fields.get(now) ?? '', fields.get(now) ?? ''];
      if (i === 0 && NOTHING.test(old) && !NOTHING.test(value)) begun++;
      if (NOTHING.test(old) || last === '') continue;
      known++;
      if (value !== '') both++;
      if (old === last) same++;
      if (old === value) still++;
    }
  if (known < MIN_ROWS || both < BOTH * known || still > (1 - NEARLY_ALL) * known) return 0;
  return same / known + (begun / rows.length) * BEGUN;
}

/** Whether a property has numbers, names of files, or yes and no. */
function isOtherThanStates(own: readonly FieldLine[], now: string): boolean {
  const values = own.map(({ fields }) => fields.get(now) ?? '');
  return !areStates(values) || values.some((value) => flagOf(value) !== null);
}

/** What a value is as a state: itself, `ANY` for a filter's name, or nothing. */
export function stateOf(value: string | undefined): string {
  const text = value?.trim() ?? '';
  return NOTHING.test(text) ? '' : isFilterName(text) ? ANY : text;
}

/** Whether the values of one property are a few states in words, or yes and no. */
export function areStates(values: Iterable<string>): boolean {
  const states = new Set([...values].map(stateOf));
  states.delete('');
  const words = [...states].filter((state) => state !== ANY);
  return (
    words.length > 0 &&
    states.size <= MOST_STATES &&
    words.every((state) => state.length <= LONGEST && !isFrameFile(state) && (isFlag(state) || !isNumber(state))) &&
    words.every((state) => isFlag(state) || !/\d/.test(state))
  );
}

const FLAGS: ReadonlyMap<string, boolean> = new Map(
  'true yes on 1 ja oui sí si sim tak ano wahr da'.split(' ').map((word) => [word, true] as const),
);
const NO_FLAGS = new Set('false no off 0 nein non não nao nie ne falsch nee'.split(' '));

/** Yes or no, in words or as a digit; `null` if a state is neither. */
export function flagOf(state: string): boolean | null {
  const word = state.toLowerCase();
  return FLAGS.has(word) ? true : NO_FLAGS.has(word) ? false : null;
}

const isFlag = (state: string): boolean => flagOf(state) !== null;
