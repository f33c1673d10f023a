import { groupBy, median } from '../../../../model/index.js';
import { isIdle } from '../lexicon/state-changes.js';
import { MOTIONS } from '../lexicon/motions.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';
import { pathsOf, type FieldLine } from './field-line.js';
import { isFrameFile } from './values.js';

/** The field that names a device, and the one with its new state. */
export interface KeyedStates {
  readonly of: string;
  readonly state: string;
}

const MIN_ROWS = 20;
const STATES = { least: 3, most: 40 } as const;
const DEVICES = { least: 2, most: 12 } as const;
const NEARLY_ALL = 0.95;
/** Minimum fraction of rows in which a device comes to rest, if nothing else identifies a state field. */
const RESTS = 0.2;
const NAMED_RESTS = 0.1;
/** Values shared with another field, where one holds the state left and the other the state entered. */
const SHARED = 0.5;
const NAMED = wordList(
  'state states status mode zustand stand etat estado stato toestand stan stav 状態 状态 doing does',
);

/**
 * The fields of a log whose rows each name a device and its new state: `camera=left state=idle`. The end of a span is
 * then only in the previous row of the same device. `null` if rows say what happens.
 */
export function keyedStates(lines: readonly FieldLine[], timePaths: readonly string[]): KeyedStates | null {
  const paths = pathsOf(lines.slice(0, 500), timePaths);
  for (const state of paths) {
    const own = lines.filter(({ fields }) => (fields.get(state) ?? '') !== '');
    if (own.length < MIN_ROWS || !isOfStates(own, state)) continue;
    const of = paths.find((path) => path !== state && isOfDevices(own, path) && turns(own, path, state));
    if (of === undefined) continue;
    const resting = own.filter(({ fields }) => isIdle(fields.get(state) ?? ''));
    const least = NAMED.test(plainWords(state)) ? NAMED_RESTS : RESTS;
    if (resting.length >= least * own.length && !paths.some((path) => path !== state && isAlike(own, path, state)))
      return { of, state };
  }
  return null;
}

function isOfStates(own: readonly FieldLine[], path: string): boolean {
  const values = [...new Set(own.map(({ fields }) => fields.get(path) ?? ''))];
  return (
    values.length >= STATES.least &&
    values.length <= STATES.most &&
    // Rows that report both begin and end of each span say what happens.
    !(values.some((value) => isOnly('start', value)) && values.some((value) => isOnly('stop', value))) &&
    values.every((value) => /\p{L}/u.test(value) && value.length <= 40 && !isFrameFile(value))
  );
}

const ONLY = { start: MOTIONS.start.expression('u'), stop: MOTIONS.stop.expression('u') };

function isOnly(motion: 'start' | 'stop', value: string): boolean {
  return plainWords(value).replace(ONLY[motion], '').trim() === '';
}

/** Whether another field has the same states. */
function isAlike(own: readonly FieldLine[], path: string, state: string): boolean {
  const valuesOf = (one: string): Set<string> => new Set(own.flatMap(({ fields }) => fields.get(one) || []));
  const states = valuesOf(state);
  const others = valuesOf(path);
  return [...states].filter((value) => others.has(value)).length >= SHARED * states.size;
}

function isOfDevices(own: readonly FieldLine[], path: string): boolean {
  const filled = own.flatMap(({ fields }) => fields.get(path) || []);
  const names = new Set(filled);
  return (
    filled.length >= NEARLY_ALL * own.length &&
    names.size >= DEVICES.least &&
    names.size <= DEVICES.most &&
    [...names].every((name) => /^\p{L}/u.test(name))
  );
}

/** Whether each row of a device differs from its previous one. */
function turns(own: readonly FieldLine[], of: string, state: string): boolean {
  const devices = [...groupBy(own, ({ fields }) => fields.get(of) ?? '').values()];
  const shares = devices.map((rows) => {
    const same = rows.filter(({ fields }, i) => i > 0 && fields.get(state) === rows[i - 1]?.fields.get(state));
    return 1 - same.length / rows.length;
  });
  return devices.some(({ length }) => length >= MIN_ROWS / 2) && median(shares) >= NEARLY_ALL;
}
