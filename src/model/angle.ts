/**
 * Angles as written in FITS headers, catalogues and by people: plain degrees, or sexagesimal text such as `00:52:59.0`,
 * `+56 37 19`, `00h52m59s`, `56°37′19″`.
 */

/** Sign, up to three groups of digits, and the separators between and after them. */
const SIGN = /^[+\-−]\s*/u;
const GROUP = /\d+(?:[.,]\d*)?/gu;
const SEPARATORS = /^[\s:hmsd°'"′″]*$/iu;
const MOST_GROUPS = 3;

/** A sexagesimal text's value, in the unit of its first group. */
export interface Sexagesimal {
  readonly value: number;
  /** The unit named by a letter or sign in the text; `unstated` if there is none. */
  readonly unit: 'hours' | 'degrees' | 'unstated';
}

/**
 * Parses sexagesimal text: one to three groups, the last possibly with a fraction. A single group needs a unit, else it
 * is a plain number. Seconds rounded up to 60, as printed by some programs, are accepted.
 *
 * @returns `undefined` when the text is not sexagesimal
 */
export function parseSexagesimal(text: string): Sexagesimal | undefined {
  const trimmed = text.trim();
  const unsigned = trimmed.replace(SIGN, '');
  const rest = unsigned.replace(GROUP, '');
  const groups = unsigned.match(GROUP)?.map((group) => Number(group.replace(',', '.')));
  if (groups === undefined || groups.length > MOST_GROUPS || !SEPARATORS.test(rest) || !/^\d/.test(unsigned))
    return undefined;
  const [whole, minutes = 0, seconds = 0] = groups;
  const unit = /h/i.test(rest) ? 'hours' : /[d°]/i.test(rest) ? 'degrees' : 'unstated';
  if (whole === undefined || minutes >= 60 || seconds > 60 || (groups.length === 1 && unit === 'unstated'))
    return undefined;
  const magnitude = whole + minutes / 60 + seconds / 3600;
  return { value: /^[-−]/u.test(trimmed) ? -magnitude : magnitude, unit };
}

/**
 * Right ascension in degrees from sexagesimal text: hours unless it names degrees. `undefined` when it is not an angle.
 */
export function sexagesimalHoursDeg(text: string): number | undefined {
  const read = parseSexagesimal(text);
  if (read === undefined) return undefined;
  return read.unit === 'degrees' ? read.value : read.value * 15;
}

/** Degrees from sexagesimal text. `undefined` when it is not an angle, or is in hours. */
export function sexagesimalDeg(text: string): number | undefined {
  const read = parseSexagesimal(text);
  return read === undefined || read.unit === 'hours' ? undefined : read.value;
}

/**
 * Right ascension in degrees: a sexagesimal text is hours, a plain number is degrees. `undefined` when neither or out
 * of range.
 */
export function parseRightAscensionDeg(value: string | number): number | undefined {
  return within(plainDeg(value) ?? sexagesimalHoursDeg(String(value)), 0, 360);
}

/** Declination in degrees, from sexagesimal degrees or a plain number. `undefined` when neither or out of range. */
export function parseDeclinationDeg(value: string | number): number | undefined {
  return within(plainDeg(value) ?? sexagesimalDeg(String(value)), -90, 90);
}

function plainDeg(value: string | number): number | undefined {
  const degrees = typeof value === 'string' && value.trim() === '' ? NaN : Number(value);
  return Number.isFinite(degrees) ? degrees : undefined;
}

function within(degrees: number | undefined, low: number, high: number): number | undefined {
  return degrees !== undefined && degrees >= low && degrees <= high ? degrees : undefined;
}
