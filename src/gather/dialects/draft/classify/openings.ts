import { isOfSeconds, lengthMs } from '../lengths.js';
import type { Kind } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { isTook, tookUnit } from '../group-names.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import type { StatedExposure } from './structure.js';
import { nameKey, wordsIn } from './twins.js';

/** An interval with an open shutter, with the words of its line, any of which may be a train's name. */
export interface Opening {
  readonly atMs: number;
  readonly lastsMs: number;
  readonly words: readonly string[];
}

/** A shorter span may not be an exposure. */
const LONG_MS = 20_000;
/** What a line about an exposure names. */
const OF_EXPOSURE = /^(?:file|filter|designation)$/;

/** Exposures whose begin states the planned length. */
export function openingsOf({ begin, seconds, unitSeconds }: Omit<StatedExposure, 'end'>): Opening[] {
  const words = wordsOf(begin);
  return begin.atMs.flatMap((atMs, i) => {
    const lastsMs = numberIn(seconds.perLine[i]) * unitSeconds * 1000;
    return Number.isNaN(atMs) || Number.isNaN(lastsMs) ? [] : [{ atMs, lastsMs, words: words(i) }];
  });
}

/**
 * Exposures of which only the end is logged, with a duration: a filter, a file or an object next to a long time.
 *
 * @param isPast the timeline confirms that its lines state elapsed seconds
 */
export function openingsBefore(kind: Kind, isPast: boolean): Opening[] {
  const took = kind.slots.find(isTook) ?? (isPast || saysEnded(kind) ? kind.slots.find(isOfSeconds) : undefined);
  if (took === undefined || !kind.slots.some(({ type }) => OF_EXPOSURE.test(type))) return [];
  return endedAt(kind, (nth) => lengthMs(took, nth));
}

/** Whether words say explicitly that an exposure is over. */
function saysEnded({ wording, hints, lead }: Kind): boolean {
  const said = wordEvidence(wording, hints, lead);
  return (said.get('exposure-end') ?? 0) >= OUTRIGHT && !said.has('exposure-begin');
}
const OUTRIGHT = 3.4;

/** Exposures of which only the begin is logged, with a planned length. */
export function openingsAsked(kind: Kind): Opening[] {
  const asked = kind.slots.find(isOfSeconds);
  if (asked === undefined || !kind.slots.some(({ type }) => OF_EXPOSURE.test(type))) return [];
  return openingsOf({ begin: kind, seconds: asked, unitSeconds: tookUnit(asked) ?? 1 }).filter(
    ({ lastsMs }) => lastsMs >= LONG_MS,
  );
}

/** The same for rows that state both ends. */
export function openingsFromRows(kind: Kind, tookMs: readonly number[] | undefined): Opening[] {
  if (tookMs === undefined || !kind.slots.some(({ type }) => type === 'file' || type === 'filter')) return [];
  return endedAt(kind, (nth) => tookMs[nth] ?? NaN);
}

/** Exposures that were over when their lines were written, with their duration. */
function endedAt(kind: Kind, tookMs: (nth: number) => number): Opening[] {
  const words = wordsOf(kind);
  return kind.atMs.flatMap((endMs, i) => {
    const lastsMs = tookMs(i);
    return Number.isNaN(endMs) || !(lastsMs >= LONG_MS) ? [] : [{ atMs: endMs - lastsMs, lastsMs, words: words(i) }];
  });
}

/** The words of a kind's nth line that may distinguish trains. */
function wordsOf(kind: Kind): (nth: number) => string[] {
  const constant = wordsIn(kind.wording);
  const slots = kind.slots.filter(({ type }) => type === 'text');
  return (nth) => [...constant, ...slots.flatMap(({ perLine }) => wordsIn(perLine[nth] ?? ''))].map(nameKey);
}
