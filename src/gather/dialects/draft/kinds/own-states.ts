import { groupBy } from '../../../../model/index.js';
import { saysMotion } from '../lexicon/said.js';
import { plainWords } from '../lexicon/plain-words.js';
import { byCutShort, type Remark } from './cut-short.js';
import { disjoint } from './disjoint-fields.js';
import type { FieldLine } from './field-line.js';
import { byOptional, type Variant } from './optional-fields.js';
import { byTimeName } from './time-names.js';
import { isNumber } from './values.js';
import { byTurn } from './turned-states.js';
import { byWork, WHY } from './works.js';

/** Records with the same state, the fields that state it, and those that distinguish them from the others. */
interface OfState {
  readonly lines: readonly FieldLine[];
  readonly states: readonly string[];
  /** A field that these records have and the others lack. */
  readonly named: string | null;
}

const MIN_LINES = 2;
/** Minimum number of records for successive states to be informative, whatever their names. */
const MIN_TURNS = 4;
const MAX_STATES = 6;
/** States that say what happens to something. */
const TELL = 0.5;
/** Minimum fraction of records with either of two fields. */
const EITHER = 0.25;

/**
 * Splits records with the same name by a field that only they have and that says what happens, `mount doing=turning`
 * and `mount doing=there`, or by which of two fields is present: `wheel turns=Ha`, `wheel holds=Ha`.
 */
function byOwnState(
  lines: readonly FieldLine[],
  all: readonly FieldLine[],
  telling: readonly string[],
  timePaths: readonly string[],
): OfState[] {
  const whole = [{ lines, states: [], named: null }];
  if (lines.length < MIN_LINES || lines.length === all.length) return whole;
  const paths = [...new Set(lines.flatMap(({ fields }) => [...fields.keys()]))].filter(
    (path) => !telling.includes(path) && !timePaths.includes(path) && !path.startsWith('in.'),
  );
  const inLines = new Set(lines);
  const isOwn = (path: string): boolean => !all.some((line) => !inLines.has(line) && line.fields.has(path));
  const own = paths.filter((path) => isOwn(path) && !WHY.test(plainWords(path)));
  const state = own.find((path) => {
    const values = new Set(lines.map(({ fields }) => fields.get(path) ?? ''));
    const words = [...values].filter((value) => /\p{L}{3}/u.test(value) && !/\d/.test(value));
    if (values.size < 2 || values.size > MAX_STATES || words.length < values.size) return false;
    const telling = words.filter(saysMotion).length;
    return telling >= TELL * words.length || (telling > 0 && turns(lines, path));
  });
  if (state !== undefined)
    return [...groupBy(lines, ({ fields }) => fields.get(state) ?? '').values()].map((one) => ({
      lines: one,
      states: [state],
      named: null,
    }));
  for (const [i, one] of own.entries())
    for (const other of own.slice(i + 1)) {
      const first = lines.filter(({ fields }) => fields.has(one));
      const second = lines.filter(({ fields }) => fields.has(other));
      const isWord = [...first, ...second].every(({ fields }) => !isNumber(fields.get(one) ?? fields.get(other) ?? ''));
      const isEither =
        isWord && first.length + second.length === lines.length && !first.some(({ fields }) => fields.has(other));
      if (!isEither || Math.min(first.length, second.length) < EITHER * lines.length) continue;
      // Mutually exclusive fields are informative by their names.
      return [
        { lines: first, states: [], named: one },
        { lines: second, states: [], named: other },
      ];
    }
  return whole;
}

/** Whether each record differs from the previous one: a device goes from state to state. */
function turns(lines: readonly FieldLine[], path: string): boolean {
  const values = lines.map(({ fields }) => fields.get(path));
  return lines.length >= MIN_TURNS && values.every((value, i) => i === 0 || value !== values[i - 1]);
}

/** Records identical in every condition that a rule can express. */
export interface Apart extends Variant {
  readonly works: readonly string[];
  readonly named: string | null;
  /** Their reason for an abort, which the others lack. */
  readonly remark: Remark | null;
}

/** A group of records among those of its log. */
export interface AmongOthers {
  readonly all: readonly FieldLine[];
  /** The fields whose values the group has in common. */
  readonly telling: readonly string[];
  readonly timePaths: readonly string[];
  /** Records are named by their fields. */
  readonly byShape: boolean;
}

/** Splits the records of a group in all of these ways. */
export function takenApart(own: readonly FieldLine[], among: AmongOthers): Apart[] {
  const { telling, timePaths } = among;
  return byCutShort(own, telling, timePaths)
    .flatMap(({ lines, remark }) => byTimeName(lines, timePaths).map((one) => ({ ...one, remark })))
    .flatMap(({ lines, timeNamed, remark }) =>
      disjoint(lines, telling, timePaths).map((one) => ({
        ...one,
        timeNamed,
        remark,
        present: timeNamed === null ? one.present : [timeNamed, ...one.present],
      })),
    )
    .flatMap(({ lines: part, timeNamed, remark, present, absent }) =>
      inStates(part, among).map((one) => ({
        ...one,
        remark,
        named: one.named ?? timeNamed,
        present: [...present, ...one.present],
        absent: [...absent, ...one.absent],
      })),
    );
}

function inStates(
  own: readonly FieldLine[],
  { all, telling, timePaths, byShape }: AmongOthers,
): Omit<Apart, 'remark'>[] {
  return byWork(own, telling, timePaths)
    .flatMap((one) => (one.works.length > 0 ? [one] : byTurn(one.lines, all, telling, timePaths)))
    .flatMap(({ lines, works }): Pick<Apart, 'lines' | 'works' | 'named'>[] =>
      works.length > 0 || !byShape
        ? [{ lines, works, named: null }]
        : byOwnState(lines, all, telling, timePaths).map((one) => ({ ...one, works: one.states })),
    )
    .flatMap(({ lines, works, named }) =>
      byOptional(lines, timePaths).map((one) => ({
        ...one,
        works,
        named,
        present: named === null ? one.present : [...one.present, named],
      })),
    );
}
