/** Eras, and the Gregorian year before their first. */
const ERAS: ReadonlyMap<string, number> = new Map([
  ['令和', 2018],
  ['平成', 1988],
  ['昭和', 1925],
  ['民國', 1911],
  ['民国', 1911],
]);

/** An era's name and its year, `元` for the first. */
const ERA_YEAR = new RegExp(`^(${[...ERAS.keys()].join('|')})\\s?(元|\\d{1,3})`, 'u');
/** Its maximum UTF-8 length. */
const LONGEST = 16;

/** A year of an era at a position in a UTF-8 text, and its end; `null` if there is none. */
export function eraYear(bytes: Uint8Array, start: number, end: number): { year: number; end: number } | null {
  const text = Buffer.from(bytes.subarray(start, Math.min(end, start + LONGEST))).toString('utf8');
  const [whole, era = '', year] = ERA_YEAR.exec(text) ?? [];
  const before = ERAS.get(era);
  if (whole === undefined || before === undefined) return null;
  return { year: before + (year === '元' ? 1 : Number(year)), end: start + Buffer.byteLength(whole) };
}
