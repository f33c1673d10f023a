/** Eras, and the year of the Gregorian calendar before their first. */
const ERAS: ReadonlyMap<string, number> = new Map([
  ['令和', 2018],
  ['平成', 1988],
  ['昭和', 1925],
  ['民國', 1911],
  ['民国', 1911],
]);

/** An era's name and the year in it, `元` for the first. */
const ERA_YEAR = new RegExp(`^(${[...ERAS.keys()].join('|')})\\s?(元|\\d{1,3})`, 'u');
/** Bytes of UTF-8 in which it stands. */
const LONGEST = 16;

/** A year of an era at a place in a text of UTF-8, and where it ends; `null` where none stands. */
export function eraYear(bytes: Uint8Array, start: number, end: number): { year: number; end: number } | null {
  const text = Buffer.from(bytes.subarray(start, Math.min(end, start + LONGEST))).toString('utf8');
  const [whole, era = '', year] = ERA_YEAR.exec(text) ?? [];
  const before = ERAS.get(era);
  if (whole === undefined || before === undefined) return null;
  return { year: before + (year === '元' ? 1 : Number(year)), end: start + Buffer.byteLength(whole) };
}
