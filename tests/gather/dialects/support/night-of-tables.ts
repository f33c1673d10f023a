import { drafted } from './drafted.js';
import { brief, read } from './read.js';

const EVENING_MS = Date.UTC(2026, 0, 16, 18);
export const iso = (s: number): string => new Date(EVENING_MS + s * 1000).toISOString();
export const clock = (s: number): string => iso(s).slice(11, 19);
export const day = (s: number): string => iso(s).slice(0, 10).split('-').reverse().join('/');

/** Seconds after 18:00 UTC. */
export interface Shot {
  readonly train: string;
  readonly atS: number;
  readonly seconds: number;
  readonly file: string;
  readonly cutS?: number;
}

/** Blocks of an exposure with each train, those of both ending within seconds, a dither behind them; beyond midnight. */
export const BLOCKS = Array.from({ length: 40 }, (_, i) => 1800 + i * 640);
export const SHOTS: readonly Shot[] = BLOCKS.flatMap((atS, i) =>
  [0, 302].flatMap((offset, nth): Shot[] =>
    ['heron', 'wren'].map((train, k) => ({
      train,
      atS: atS + offset + 2 * k,
      seconds: 300,
      file: `${train}_${String(2 * i + nth + 1).padStart(4, '0')}.fits`,
      ...(i % 13 === 12 && nth === 1 && k === 0 ? { cutS: 71 + i } : {}),
    })),
  ),
);
export const filterOf = ({ train }: Shot): string => (train === 'heron' ? 'Ha' : 'L');
export const shotEvents = SHOTS.flatMap(({ train, atS, seconds, cutS }) => [
  `${iso(atS)} exposure-begin ${train}`,
  `${iso(atS + (cutS ?? seconds))} exposure-${cutS === undefined ? 'end' : 'abort'} ${train}`,
]);
export const moves = BLOCKS.map((atS, i) => ({
  atS: atS + 606,
  pixels: `${2 + (i % 4)},${i % 10}`,
  calmS: atS + 618 + (i % 9),
}));

/** What an untouched draft of a log tells, without its facts. */
export async function eventsRead(lines: readonly string[]): Promise<string[]> {
  const { yaml } = drafted(lines);
  const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-01-16' });
  return brief(log).map((line) => line.replace(/ \{.*$/, ''));
}

/** The events of some names, in order. */
export const only = (lines: readonly string[], names: RegExp): string[] =>
  lines.filter((line) => names.test(line)).sort();
export const EXPOSURES = /exposure/;

/** Rows of whatever happens, in their order. */
export const inOrder = (rows: readonly (readonly [number, string])[]): string[] =>
  [...rows].sort((a, b) => a[0] - b[0]).map(([, text]) => text);
