import { saysMotion } from '../lexicon/said.js';
import { plainWords } from '../lexicon/plain-words.js';
import { stateWord } from './binary-states.js';
import type { FieldLine } from './field-line.js';
import type { PathFacts } from './message-path.js';

/** Maximum number of states of a field, and of letters in one. */
const MOST_STATES = 6;
const LONGEST = 24;
/** Minimum number of fields, and fraction of records, for field names to count as subjects. */
const MIN_FIELDS = 4;
const OF_RECORDS = 0.3;

/**
 * The fields whose names are subjects and whose values say what happens to them: `mount dither=begin`, `camera
 * shutter=open`, `guider settling=0`. Each record has one of them, directly after the common fields. Empty if there are
 * too few.
 *
 * @param common the fields that name the writer
 */
export function namedStates(
  facts: readonly PathFacts[],
  lines: readonly FieldLine[],
  common: readonly string[],
  timePaths: readonly string[],
): readonly string[] {
  const firsts = lines.map(({ fields }) =>
    [...fields].find(([path, value]) => value !== '' && !common.includes(path) && !timePaths.includes(path)),
  );
  const first = new Set(firsts.flatMap((one) => one?.[0] ?? []));
  const found = facts.filter(({ path, values }) => first.has(path) && isOfStates([...values.keys()]));
  const moving = found.filter(({ path, values }) => saysWhat(path, [...values.keys()]));
  const names = new Set(found.map(({ path }) => path));
  const known = firsts.filter((one) => one !== undefined && names.has(one[0])).length;
  return moving.length >= MIN_FIELDS && known >= OF_RECORDS * lines.length ? [...names] : [];
}

function isOfStates(values: readonly string[]): boolean {
  return (
    values.length <= MOST_STATES &&
    values.every(
      (value) => stateWord(value) !== null || (/^\p{L}[\p{L}\s_-]*$/u.test(value) && value.length <= LONGEST),
    )
  );
}

/** Whether a field's values say what happens to something, or are on and off. */
function saysWhat(path: string, values: readonly string[]): boolean {
  const isOnOff = values.some((value) => stateWord(value) !== null);
  return values.some((value) => saysMotion(value)) || (isOnOff && plainWords(path) !== '');
}
