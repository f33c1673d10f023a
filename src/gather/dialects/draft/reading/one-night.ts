import type { FieldLine } from '../kinds/field-line.js';

const DAY_MS = 86_400_000;
/** Later times are instants with a date. */
const DATED_MS = 100 * DAY_MS;

/**
 * The rows of several tables on one clock: each begins at its own first time of day, which for late events is in the
 * small hours of the next day, and some may state the date.
 */
export function onOneNight(tables: readonly (readonly FieldLine[])[]): (readonly FieldLine[])[] {
  const begins = tables.map((lines) => lines.find(({ atMs }) => !Number.isNaN(atMs))?.atMs ?? NaN);
  const dated = begins.filter((ms) => ms > DATED_MS);
  const eveningMs = dated.length === 0 ? 0 : Math.floor((Math.min(...dated) - DAY_MS / 2) / DAY_MS) * DAY_MS;
  const inEvening = begins.some((ms) => ms % DAY_MS >= DAY_MS / 2);
  return tables.map((lines, i) => {
    const begin = begins[i] ?? NaN;
    if (begin > DATED_MS) return lines;
    const addedMs = eveningMs + (inEvening && begin < DAY_MS / 2 ? DAY_MS : 0);
    return addedMs === 0 ? lines : lines.map((line) => later(line, addedMs));
  });
}

function later({ timesMs, atMs, ...line }: FieldLine, addedMs: number): FieldLine {
  return {
    ...line,
    atMs: atMs + addedMs,
    ...(timesMs === undefined ? {} : { timesMs: new Map([...timesMs].map(([path, ms]) => [path, ms + addedMs])) }),
  };
}
