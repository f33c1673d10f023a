import { plainWords } from '../lexicon/plain-words.js';
import type { FieldLine } from './field-line.js';
import type { Slot } from './kind.js';
import { typeOf } from './values.js';

/** A time of day, possibly after its date, followed by blanks of any kind and a result. */
const TIME_AND_MORE =
  /^((?:\d{1,4}[-./]\d{1,2}[-./]\d{2,4}[T ] ?)?\d{1,2}:\d{2}:\d{2}(?:[.,]\d+)?(?: ?[AaPp][Mm])?)(?:[\s\u3000]+(\S.*))?$/u;
/** The same with seconds or milliseconds since 1970, of the years 2017 to 2033. */
const COUNT_AND_MORE = /^(1[5-9]\d{8}(?:[.,]\d+|\d{3})?)(?:[\s\u3000]+(\S.*))?$/u;
const MOSTLY = 0.6;

/** The values of a field that holds a time and more, and the pattern that captures them in groups of these names. */
export interface TimeCell {
  readonly time: Slot;
  readonly rest: Slot;
  pattern(groups: ReadonlyMap<Slot, string>): string;
}

/** A field with a time and a result: `saved: 21:08:14 m33_001.fits`, `over: 21:03:10 failed`. */
export function timeCell(lines: readonly FieldLine[], path: string): TimeCell | null {
  return cellOf(TIME_AND_MORE, lines, path) ?? cellOf(COUNT_AND_MORE, lines, path);
}

function cellOf(timeAndMore: RegExp, lines: readonly FieldLine[], path: string): TimeCell | null {
  const perLine = lines.map(({ fields }) => {
    const text = fields.get(path)?.trim();
    return text === undefined ? undefined : timeAndMore.exec(text);
  });
  const filled = perLine.filter((one) => one !== undefined);
  if (filled.length === 0 || filled.some((one) => one === null)) return null;
  if (filled.filter((one) => one?.[2] !== undefined).length < MOSTLY * filled.length) return null;
  const before = plainWords(path).split(' ').reverse();
  const slot = (nth: 1 | 2): Slot => {
    const own = perLine.map((one) => one?.[nth]);
    const values = [...new Set(own.filter((value) => value !== undefined))].slice(0, 24);
    return { path: null, before, after: '', type: typeOf(values), values, perLine: own };
  };
  const time: Slot = { ...slot(1), type: 'clock', isFront: true };
  const rest = slot(2);
  const isCount = timeAndMore === COUNT_AND_MORE;
  const date = time.values.some((value) => /[-./].*[T ]/.test(value)) ? '\\d+[-./]\\d+[-./]\\d+[T ] ?' : '';
  const form = isCount ? '\\d+[.,\\d]*' : `${date}\\d+:\\d+:\\d+[.,\\d]*(?: ?[AaPp][Mm])?`;
  return {
    time,
    rest,
    pattern: (groups) => {
      const caught = (one: Slot, text: string): string => {
        const name = groups.get(one);
        return name === undefined ? text : `(?<${name}>${text})`;
      };
      const behind = groups.has(rest) ? `[\\s\u3000]+${caught(rest, '\\S.*')}` : '';
      return `^${caught(time, form)}${behind}`;
    },
  };
}
