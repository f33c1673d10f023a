import type { DialectLogOptions } from '../../../../src/gather/dialects/index.js';
import { BLOCKS, BRACKETED, CSV_COMMA, EPOCH, GERMAN, ISO_CODES, RELATIVE, SENTENCES, TOOK } from './corpus-formats.js';
import { DASHES, DUREE, QUOTED, UHR } from './corpus-held-out.js';
import { FRENCH, JSON_MESSAGES, KEY_VALUES, LEVEL_FIRST, SPANISH, SYSTEM_LOG } from './corpus-later.js';
import type { Happening } from './corpus-night.js';
import { uniform } from '../../../support/generator/random.js';
import { inventedNight } from './corpus-night.js';

/** One invented log format: how it prints what happens. */
export interface LogFormat {
  readonly name: string;
  /** What stands before the first event. */
  readonly head?: readonly string[];
  /** The lines for one happening, `null` when the format does not log it. */
  print(happening: Happening): readonly string[] | string | null;
  /** Beginnings that the format does not print, but whose time follows from the line of the end. */
  readonly derived?: readonly Happening['event'][];
  /** Chatter: lines that are no event, each with its stamp. */
  chatter(atMs: number, random: () => number): string;
  readonly encoding?: 'utf8' | 'latin1' | 'utf16le';
  readonly ending?: '\n' | '\r\n';
  /** What the rig file says about the site, where the log needs it. */
  readonly options?: DialectLogOptions;
}

/** Formats that the draft was made and improved with. */
export const KNOWN: readonly LogFormat[] = [
  BRACKETED,
  ISO_CODES,
  EPOCH,
  CSV_COMMA,
  BLOCKS,
  SENTENCES,
  GERMAN,
  TOOK,
  RELATIVE,
  FRENCH,
  SYSTEM_LOG,
  KEY_VALUES,
  SPANISH,
  JSON_MESSAGES,
  LEVEL_FIRST,
];

/** Formats that the draft has been tried on and not changed for. */
export const HELD_OUT: readonly LogFormat[] = [DASHES, UHR, QUOTED, DUREE];

/** A format's log of the invented night, and the events that truly stand in it, as an event log. */
export function written(format: LogFormat, seed: number): { readonly log: Buffer; readonly truth: string } {
  const random = uniform(seed + 1);
  const lines: string[] = [...(format.head ?? [])];
  const truth: Happening[] = [];
  const night = inventedNight(seed);
  const derived = new Set<string>(format.derived ?? []);
  night.forEach((happening, i) => {
    const printed = format.print(happening);
    if (printed !== null) lines.push(...(typeof printed === 'string' ? [printed] : printed));
    if (printed !== null || derived.has(happening.event)) truth.push(happening);
    const next = night[i + 1]?.atMs ?? happening.atMs;
    const gap = next - happening.atMs;
    const chatter = gap > 60_000 ? 1 + Math.floor(random() * 3) : random() < 0.15 ? 1 : 0;
    for (let n = 1; n <= chatter; n++)
      lines.push(format.chatter(happening.atMs + Math.round((gap * n) / (chatter + 1)), random));
  });
  const ending = format.ending ?? '\n';
  const text = lines.map((line) => line.replaceAll('\n', ending) + ending).join('');
  return {
    log: Buffer.from((format.encoding === 'utf16le' ? '\ufeff' : '') + text, format.encoding ?? 'utf8'),
    truth: truth
      .map(({ atMs, number, beganMs, ...rest }) => `${JSON.stringify({ at: new Date(atMs).toISOString(), ...rest })}\n`)
      .join(''),
  };
}
