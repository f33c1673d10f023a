/** Angles on the sky: sexagesimal text, normalising, separation. Degrees throughout. */

const RAD = Math.PI / 180;

/** Brings an angle into [0, 360) degrees. */
export function normaliseDegrees(deg: number): number {
  return ((deg % 360) + 360) % 360;
}

/**
 * Angle between two directions given as longitude and latitude (RA/Dec, or azimuth/altitude), degrees in and out.
 *
 * Vincenty's form of the great-circle angle, which keeps full precision for tiny, right and nearly opposite angles
 * alike (T. Vincenty 1975, Survey Review 23, 88, on the sphere).
 */
export function separationDeg(longitudeA: number, latitudeA: number, longitudeB: number, latitudeB: number): number {
  const difference = (longitudeB - longitudeA) * RAD;
  const sinA = Math.sin(latitudeA * RAD);
  const cosA = Math.cos(latitudeA * RAD);
  const sinB = Math.sin(latitudeB * RAD);
  const cosB = Math.cos(latitudeB * RAD);
  const cosDifference = Math.cos(difference);
  const across = Math.hypot(cosB * Math.sin(difference), cosA * sinB - sinA * cosB * cosDifference);
  return Math.atan2(across, sinA * sinB + cosA * cosB * cosDifference) / RAD;
}

/**
 * Reads a right ascension and returns degrees in [0, 360).
 *
 * Sexagesimal text is hours (`00:52:59`, `0h 52m 59.3s`, `00 52 59`); one number needs its unit (`0.883h`, `13.25°`,
 * `13.25d`), because a bare one could be either.
 *
 * @throws RangeError that quotes the text and says what is wrong with it
 */
export function parseRightAscension(text: string): number {
  const subject = `right ascension "${text}"`;
  const single = /^\+?(\d+(?:\.\d*)?)\s*(h|d|deg|°)$/i.exec(text.trim());
  const hours = single ? Number(single[1]) / (single[2]?.toLowerCase() === 'h' ? 1 : 15) : sexagesimal(text, 'h', subject);
  if (hours === null) {
    throw new RangeError(`${subject} is not understood: write hours, minutes and seconds as 00:52:59, or degrees as 13.25°`);
  }
  if (hours < 0 || hours >= 24) throw new RangeError(`${subject} lies outside 0h to 24h`);
  return hours * 15;
}

/**
 * Reads a declination and returns degrees in [−90, 90].
 *
 * Sexagesimal text (`+56:37:19`, `−5° 23′ 28″`, `-05 23 28`) or one number in degrees (`56.62`, `56.62°`).
 *
 * @throws RangeError that quotes the text and says what is wrong with it
 */
export function parseDeclination(text: string): number {
  const subject = `declination "${text}"`;
  const single = /^([+\-−]?)(\d+(?:\.\d*)?)\s*(?:d|deg|°)?$/i.exec(text.trim());
  const degrees = single ? signed(single[1], Number(single[2])) : sexagesimal(text, 'd°', subject);
  if (degrees === null) {
    throw new RangeError(`${subject} is not understood: write degrees, minutes and seconds as +56:37:19, or degrees as 56.62`);
  }
  if (Math.abs(degrees) > 90) throw new RangeError(`${subject} lies outside −90° to +90°`);
  return degrees;
}

/** Writes a right ascension as `00h 52m 59s`, with the decimals asked for in the seconds. Degrees in. */
export function formatRightAscension(raDeg: number, decimals = 0): string {
  const [hours, minutes, seconds] = split(normaliseDegrees(raDeg) / 15, decimals);
  return `${pad(hours % 24)}h ${pad(minutes)}m ${pad(seconds, decimals)}s`;
}

/** Writes a declination as `+56° 37′ 19″`, with the decimals asked for in the seconds. Degrees in. */
export function formatDeclination(decDeg: number, decimals = 0): string {
  const [degrees, minutes, seconds] = split(Math.abs(decDeg), decimals);
  return `${decDeg < 0 ? '−' : '+'}${pad(degrees)}° ${pad(minutes)}′ ${pad(seconds, decimals)}″`;
}

/** The value of `[sign] whole minutes [seconds]` in units of the whole, or `null` when the text has another shape. */
function sexagesimal(text: string, unit: string, subject: string): number | null {
  const shape = new RegExp(
    `^([+\\-−]?)(\\d{1,3})\\s*[:${unit}\\s]\\s*(\\d{1,2}(?:\\.\\d*)?)(?:\\s*[:m'′\\s]\\s*(\\d{1,2}(?:\\.\\d*)?)\\s*[s"″]?|\\s*[m'′])?$`,
    'i',
  );
  const found = shape.exec(text.trim());
  if (!found) return null;
  const [, sign, whole, minutesText = '', secondsText] = found;
  if (secondsText !== undefined && minutesText.includes('.')) {
    throw new RangeError(`${subject} has a fraction of a minute and seconds as well: keep one of them`);
  }
  const minutes = Number(minutesText);
  const seconds = Number(secondsText ?? 0);
  if (minutes >= 60 || seconds >= 60) throw new RangeError(`${subject} has minutes or seconds of 60 or more`);
  return signed(sign, Number(whole) + minutes / 60 + seconds / 3600);
}

function signed(sign: string | undefined, value: number): number {
  return sign === '-' || sign === '−' ? -value : value;
}

/** Splits into whole, minutes and seconds after rounding to the last digit shown, so that 59.96 carries over. */
function split(value: number, decimals: number): [whole: number, minutes: number, seconds: number] {
  const scale = 10 ** decimals;
  const units = Math.round(value * 3600 * scale);
  return [Math.floor(units / (3600 * scale)), Math.floor(units / (60 * scale)) % 60, (units % (60 * scale)) / scale];
}

function pad(value: number, decimals = 0): string {
  return value.toFixed(decimals).padStart(decimals > 0 ? decimals + 3 : 2, '0');
}
