/**
 * Sexagesimal angles, as FITS headers and catalogues write them: `00:52:59.0`, `+56 37 19`, `00h52m59s`.
 */

const SIGN_AND_FIRST = /^\s*([+\-−])?\s*(\d{1,3})\s*[:h°d\s]\s*/u;
const MINUTES = /(\d{1,2}(?:\.\d*)?)\s*/u;
const SECONDS = /(?:[:m'′\s]\s*(\d{1,2}(?:\.\d*)?)\s*[s"″]?)?\s*[m'′]?\s*$/u;
const SEXAGESIMAL = new RegExp(SIGN_AND_FIRST.source + MINUTES.source + SECONDS.source, 'iu');

/** The value in the unit of the first field (hours or degrees), or `null` when the text is not sexagesimal. */
export function parseSexagesimal(text: string): number | null {
  const match = SEXAGESIMAL.exec(text);
  if (!match) return null;
  const minutes = Number(match[3]);
  const seconds = Number(match[4] ?? 0);
  if (minutes >= 60 || seconds >= 60) return null;
  const magnitude = Number(match[2]) + minutes / 60 + seconds / 3600;
  return match[1] === '-' || match[1] === '−' ? -magnitude : magnitude;
}

/**
 * Right ascension in degrees: a sexagesimal text is hours, a plain number is degrees. `null` when neither or out of
 * range.
 */
export function parseRightAscensionDeg(value: string | number): number | null {
  return parseAngle(value, 15, 0, 360);
}

/** Declination in degrees, from sexagesimal degrees or a plain number. `null` when neither or out of range. */
export function parseDeclinationDeg(value: string | number): number | null {
  return parseAngle(value, 1, -90, 90);
}

function parseAngle(value: string | number, sexagesimalScale: number, low: number, high: number): number | null {
  const plain = typeof value === 'number' ? value : value.trim() === '' ? NaN : Number(value);
  const sexagesimal = Number.isNaN(plain) && typeof value === 'string' ? parseSexagesimal(value) : null;
  const degrees = sexagesimal === null ? plain : sexagesimal * sexagesimalScale;
  return Number.isFinite(degrees) && degrees >= low && degrees <= high ? degrees : null;
}
