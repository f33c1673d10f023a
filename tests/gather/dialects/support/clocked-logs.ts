import { drafted } from './drafted.js';
import { read } from './read.js';

/** 14 October 2026, 19:42:00 UTC, the evening's 21:42 in Madrid. */
export const T0 = Date.UTC(2026, 9, 14, 19, 42);
/** Seconds after that instant at which exposures of five minutes begin, past midnight. */
export const SHOTS = Array.from({ length: 30 }, (_, i) => 12 + i * 312);

/** A stamp by the instant, UTC ms. */
export type StampAt = (atMs: number) => string;

/** What the lines of a night say, and when, UTC ms. */
const SAID = SHOTS.flatMap((s) =>
  [
    [s, 'exposure started', '300'],
    [s + 300, 'exposure finished', ''],
    [s + 301, 'dithering by 3.1 px', ''],
    [s + 309.5, 'settled', ''],
  ].map(([at, text, seconds]) => ({ atMs: T0 + Number(at) * 1000, text: String(text), seconds: String(seconds) })),
);

/** Lines of prose. */
export function proseOf(stamp: StampAt): string[] {
  return SAID.map(
    ({ atMs, text, seconds }) => `${stamp(atMs)}  ${text}${seconds === '' ? '' : `, ${seconds} s, filter Ha`}`,
  );
}

/** A table whose first column, or columns, hold the time. */
export function tableOf(columns: string, stamp: StampAt): string[] {
  return [`${columns};what;length`, ...SAID.map(({ atMs, text, seconds }) => `${stamp(atMs)};${text};${seconds}`)];
}

/** Records of a line each; the stamp writes the fields of the time. */
export function recordsOf(stamp: StampAt): string[] {
  return SAID.map(({ atMs, text, seconds }) => {
    const length = seconds === '' ? '' : `, "length": ${seconds}`;
    return `{${stamp(atMs)}, "what": "${text}"${length}}`;
  });
}

/** The draft of a log, and the beginnings of exposures that it reads: seconds since the first instant. */
export async function beginsIn(
  lines: readonly string[],
  name = 'night.log',
): Promise<{ yaml: string; found: readonly number[] }> {
  const { yaml } = drafted(lines, name);
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'Europe/Madrid', name });
  return {
    yaml,
    found: events.filter(({ event }) => event === 'exposure-begin').map(({ atMs }) => (atMs - T0) / 1000),
  };
}

/** Whether all beginnings are found, to the second. */
export function areAll(found: readonly number[]): boolean {
  return found.length === SHOTS.length && SHOTS.every((s, i) => Math.abs((found[i] ?? NaN) - s) <= 1);
}
