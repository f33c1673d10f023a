import { groupBy } from '../../../../model/index.js';
import { MOTIONS } from '../lexicon/motions.js';
import { plainWords } from '../lexicon/plain-words.js';
import { saysMotion } from '../lexicon/said.js';
import { namesStarless } from '../lexicon/state-changes.js';
import { SUBJECTS, type SubjectId } from '../lexicon/subjects.js';
import type { FieldLine } from './field-line.js';
import type { Kind } from './kind.js';

/** A field with two words for begin and end of whatever it is next to. */
export interface TurningField {
  readonly path: string;
  readonly comes: string;
  readonly goes: string;
  /** The fields that name the span. */
  readonly of: readonly string[];
}

const MAX_VALUES = 8;
/** Minimum fraction of records with the two words, and fraction of these in which they alternate. */
export const MOST = 0.4;
export const IN_TURN = 0.85;
/** Minimum number of different spans, and the fraction that begin with the same word. */
export const MIN_THINGS = 4;
export const FIRST = 0.8;
/** Not done by cameras, and the minimum number of such spans. */
const OF_MOUNT: ReadonlySet<SubjectId> = new Set(['dither', 'settling', 'slew', 'centre', 'flip', 'guiding', 'star']);
export const MIN_OF_MOUNT = 2;

/**
 * The field of records that marks all begins and ends, whatever its two words are: `ALARM` and `CLEARED`, `ein` and
 * `weg`. They alternate, and each span begins before it ends. `null` if there is none, or both words are already
 * understood.
 */
export function turningField(telling: readonly string[], lines: readonly FieldLine[]): TurningField | null {
  const found = telling.flatMap((path) => {
    const pair = commonest(path, lines);
    const others = telling.filter((other) => other !== path);
    const by = others.flatMap((one, i) => [[one], ...others.slice(i + 1).map((other) => [one, other])]);
    return pair === null ? [] : by.flatMap((of) => turnsBy(path, pair, of, lines) ?? []);
  });
  return found.sort((a, b) => b.inTurn - a.inTurn)[0]?.field ?? null;
}

/** The two most common words of a field; `null` if they are known, or rare. */
function commonest(path: string, lines: readonly FieldLine[]): readonly [string, string] | null {
  const counts = [...groupBy(lines, ({ fields }) => fields.get(path) ?? '')].filter(([value]) => value !== '');
  const [one, other] = counts.sort((a, b) => b[1].length - a[1].length);
  if (one === undefined || other === undefined || counts.length > MAX_VALUES) return null;
  if (one[1].length + other[1].length < MOST * lines.length) return null;
  const words = [one[0], other[0]] as const;
  if (words.some((word) => !/^\p{L}+$/u.test(word)) || words.every(saysMotion)) return null;
  return words;
}

function turnsBy(
  path: string,
  [one, other]: readonly [string, string],
  of: readonly string[],
  lines: readonly FieldLine[],
): { readonly field: TurningField; readonly inTurn: number } | null {
  const own = lines.filter(({ fields }) => [one, other].includes(fields.get(path) ?? ''));
  const named = [...groupBy(own, ({ fields }) => of.map((about) => fields.get(about) ?? '').join(' '))].map(
    ([name, records]) => ({ name, words: records.map(({ fields }) => fields.get(path) ?? '') }),
  );
  // Two alternating cameras do so with camera actions.
  const ofMount = named.filter(({ name, words }) => new Set(words).size > 1 && isOfMount(name));
  if (ofMount.length < MIN_OF_MOUNT) return null;
  const things = named.map(({ words }) => words).filter((words) => words.length > 1);
  const inTurn = things.flatMap((words) => words.filter((word, i) => word !== words[i - 1])).length;
  const first = things.filter(([word]) => word === one).length;
  const share = Math.max(first, things.length - first) / Math.max(1, things.length);
  if (things.length < MIN_THINGS || share < FIRST || inTurn < IN_TURN * own.length) return null;
  const [comes, goes] = first > things.length - first ? [one, other] : [other, one];
  return { field: { path, comes, goes, of }, inTurn };
}

/** Two fields whose names mark begin and end: each record has one of them, with the span as its value. */
export interface TurningNames {
  readonly comes: string;
  readonly goes: string;
}

/**
 * The two fields whose names mark all begins and ends, whatever they are: `raise=exposing` and `lower=exposing`. Both
 * have the same values, alternating, the first of them first. `null` if there are none.
 */
export function turningNames(telling: readonly string[], lines: readonly FieldLine[]): TurningNames | null {
  const has = ({ fields }: FieldLine, path: string): boolean => (fields.get(path) ?? '') !== '';
  const found = telling.flatMap((one, i) =>
    telling.slice(i + 1).flatMap((other) => {
      const own = lines.filter((line) => has(line, one) || has(line, other));
      if (own.length < MOST * lines.length || own.some((line) => has(line, one) && has(line, other))) return [];
      // As if one field held the marker and another the span.
      const [name, thing] = [`${one} ${other}`, `${one} ${other} thing`];
      const worded = own.map((line) => {
        const path = has(line, one) ? one : other;
        return { ...line, fields: new Map([...line.fields, [name, path], [thing, line.fields.get(path) ?? '']]) };
      });
      const others = telling.filter((path) => path !== one && path !== other);
      const by = [[thing], ...others.map((path) => [path, thing])];
      return by.flatMap((of) => turnsBy(name, [one, other], of, worded) ?? []);
    }),
  );
  const best = found.sort((a, b) => b.inTurn - a.inTurn)[0]?.field;
  return best === undefined ? null : { comes: best.comes, goes: best.goes };
}

/** A kind as the begin, or end, of the span that its records have in one of the two fields. */
export function asTurnedByName(kind: Kind, fields: ReadonlyMap<string, string>, { comes, goes }: TurningNames): Kind {
  const begins = (fields.get(comes) ?? '') !== '';
  const name = fields.get(begins ? comes : goes) ?? '';
  return name === '' ? kind : worded(kind, name, name, begins, `${name} `);
}

/** A kind as the begin, or end, of the span in its records. */
export function asTurned(
  kind: Kind,
  fields: ReadonlyMap<string, string>,
  field: TurningField,
  source: string | null,
): Kind {
  const word = fields.get(field.path) ?? '';
  if (word !== field.comes && word !== field.goes) return kind;
  const name = field.of.flatMap((path) => (path === source ? [] : (fields.get(path) ?? []))).join(' ');
  return name === '' ? kind : worded(kind, name, word, word === field.comes);
}

/**
 * The kind, reworded with begin or end of the named span, without the word that means this in the log.
 *
 * @param kept the part of the word that stays
 */
export function worded(kind: Kind, name: string, word: string, begins: boolean, kept = ''): Kind {
  const front = kind.wording.slice(0, kind.lead).trimEnd();
  // `waits for the dither: goes`: a state or action no longer applies.
  if (!isState(name)) {
    const replacement = () => `${kept}${begins ? 'begins' : 'ends'}`;
    return { ...kind, wording: kind.wording.replace(word, replacement) };
  }
  const change = begins ? `· → ${name}` : `${name} → ·`;
  return front === ''
    ? { ...kind, wording: change, lead: 0 }
    : { ...kind, wording: `${front} ${change}`, lead: front.length };
}

/** Whether a name is something that no camera does. */
export function isOfMount(name: string): boolean {
  const words = plainWords(name);
  // A camera waits for what the mount does.
  if (MOTIONS.wait.test(words) || MOTIONS.ready.test(words)) return false;
  return SUBJECTS.some(({ id, strong }) => OF_MOUNT.has(id) && strong.test(words));
}

function isState(name: string): boolean {
  const words = plainWords(name);
  return saysMotion(name) || namesStarless(words) || MOTIONS.ready.test(words);
}
