import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import { isPixels, statesTook } from '../group-names.js';
import type { Kind } from '../kinds/kind.js';
import { moveEvidence, wordEvidence } from '../lexicon/word-evidence.js';
import { wordList } from '../lexicon/plain-words.js';
import { numberIn } from '../kinds/values.js';
import type { Stated } from './durations.js';
import { reachesSetpoint, valueEvidence, type StatedExposure } from './structure.js';

/** A kind with events that it cannot be. */
export interface Candidate {
  readonly kind: Kind;
  readonly only?: readonly EventName[];
  /** How long what it tells had taken, ms, where its rows state both ends. */
  readonly tookMs?: readonly number[];
  /** Evidence from elsewhere, such as exposures of the session's frames. */
  readonly extra?: ReadonlyMap<EventName, number>;
}

const SHARE = wordList('percent* prozent* pourcent* percentual* porcentaje* percentagem procent* progress pct');
const PROGRESS = 2;
/** What it says of an exposure that its seconds are over on time. */
export const STATED = 4;
/** Values that speak for an exposure this little are those of many other lines. */
const UNNAMED_EXPOSURE = 1.7;
const BY_PIXELS = [
  ['slew-begin', 'dither-begin'],
  ['slew-end', 'dither-end'],
] as const;
const PIXELS = 0.5;
/** A line that says how long something took says that it is over. */
const TOOK = 0.8;
/** Seconds that fit the night only as passed, or only as to come. */
const PASSED = 1.2;

/** What the words and values of a kind speak for, its neighbours left aside. */
export function ownEvidence(
  { kind, only, extra, tookMs }: Candidate,
  stated: readonly StatedExposure[],
  duration: Stated | undefined,
): Map<EventName, number> {
  const evidence = wordEvidence(kind.wording, kind.hints, kind.lead);
  // `Arrived at NGC 281`: what moves to an object needs no name.
  const types = new Set(kind.slots.map(({ type }) => type));
  if (evidence.size === 0 && types.has('designation') && !types.has('filter') && !types.has('file'))
    for (const [event, value] of moveEvidence(kind.wording.slice(kind.lead))) evidence.set(event, value);
  const named = evidence.size > 0;
  if (!hasTime(kind)) return new Map();
  const cools = evidence.has('cooler') || reachesSetpoint(kind);
  for (const [event, value] of valueEvidence(kind)) {
    const before = evidence.get(event);
    // Values alone tell a saved frame and a cooler; for the rest they only add to words.
    if (event === 'cooler' && !cools) continue;
    if (before === undefined && event.startsWith('exposure') && value < UNNAMED_EXPOSURE) continue;
    if (before !== undefined || value >= 2 || (!named && kind.count > 1)) evidence.set(event, (before ?? 0) + value);
  }
  // What moves by pixels is no mount on its way to a target.
  if (!types.has('designation') && kind.slots.some(isPixels))
    for (const [slew, dither] of BY_PIXELS) {
      const value = evidence.get(slew);
      if (value === undefined) continue;
      evidence.delete(slew);
      evidence.set(dither, Math.max(evidence.get(dither) ?? 0, value + PIXELS));
    }
  for (const one of stated) {
    if (one.begin === kind) evidence.set('exposure-begin', (evidence.get('exposure-begin') ?? 0) + STATED);
    if (one.end === kind) evidence.set('exposure-end', (evidence.get('exposure-end') ?? 0) + STATED / 2);
  }
  for (const [event, value] of extra ?? []) evidence.set(event, (evidence.get(event) ?? 0) + value);
  // How far an exposure has come begins none.
  if (isProgress(kind))
    for (const event of ['exposure-begin', 'exposure-end'] as const)
      if (evidence.has(event)) evidence.set(event, (evidence.get(event) ?? 0) - PROGRESS);
  // A cooler has two temperatures: what is asked for, and what is.
  if (kind.slots.filter(({ type }) => type === 'number').length < 2) evidence.delete('cooler');
  if (tookMs !== undefined && lastsAsAsked(kind, tookMs))
    evidence.set('exposure-end', (evidence.get('exposure-end') ?? 0) + STATED);
  const tells = statesTook(kind) || tookMs !== undefined;
  if (tells || duration === 'past') {
    // What has taken so long is over, whatever the word for it.
    const isOver = duration !== 'planned' && !stated.some(({ begin }) => begin === kind);
    for (const [event, value] of isOver ? [...evidence] : []) {
      const end = endOf(event);
      if (end !== undefined) evidence.set(end, Math.max(evidence.get(end) ?? 0, value));
    }
  }
  if (tells) {
    for (const [event, value] of evidence) {
      if (beginOf(event) !== undefined) evidence.set(event, value + TOOK);
      else if (endOf(event) !== undefined) evidence.set(event, value - TOOK);
    }
  }
  if (duration !== undefined) {
    const weight = duration === 'past' ? PASSED : -PASSED;
    for (const [event, value] of evidence) {
      if (beginOf(event) !== undefined) evidence.set(event, value + weight);
      else if (endOf(event) !== undefined) evidence.set(event, value - weight);
    }
  }
  if (only !== undefined) for (const event of evidence.keys()) if (!only.includes(event)) evidence.delete(event);
  return evidence;
}

/** Rows, and the share of them, that last as long as a number in them says. */
const MIN_ASKED = 4;
const ASKED = 0.7;

/** Whether the row's two times are as far apart as a round number of it asks for: a shutter was open. */
function lastsAsAsked({ slots, count }: Kind, tookMs: readonly number[]): boolean {
  if (count < MIN_ASKED) return false;
  return slots.some(({ type, values, perLine }) => {
    if (type !== 'number' || !values.every((value) => Number.isInteger(2 * numberIn(value)) && numberIn(value) >= 5))
      return false;
    const kept = tookMs.filter((ms, i) => {
      const more = ms / 1000 - numberIn(perLine[i]);
      return more > -1.1 && more < 2.1;
    });
    return kept.length >= ASKED * tookMs.length;
  });
}

/** Whether the lines state a share of something that has neither begun nor ended. */
function isProgress({ slots }: Kind): boolean {
  return slots.some(
    ({ type, after, before, values }) =>
      type === 'number' &&
      (after === '%' || before.some((word) => SHARE.test(word))) &&
      values.some((value) => numberIn(value) > 0 && numberIn(value) < 100),
  );
}

/** Whether the lines name files that hold frames. */
export function hasFile(kind: Kind): boolean {
  return kind.slots.some(({ type }) => type === 'file');
}

/** What has no time, such as the heads of columns, happens never. */
export function hasTime(kind: Kind): boolean {
  return kind.atMs.some((atMs) => !Number.isNaN(atMs));
}
