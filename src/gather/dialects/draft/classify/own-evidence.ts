import { isOfSeconds } from '../lengths.js';
import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import { isPixels, statesTook, tookUnit } from '../group-names.js';
import type { Kind, Slot } from '../kinds/kind.js';
import {
  addUnwritten,
  endsSomething,
  moveEvidence,
  namesWheel,
  saysClosed,
  saysLost,
  saysSaved,
  shiftEvidence,
  turnEvidence,
} from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { wordList } from '../lexicon/word-list.js';
import { numberIn, type ValueType } from '../kinds/values.js';
import { cellTexts } from '../reasons.js';
import type { Stated } from './durations.js';
import { lastsAsAsked, lastsThroughFilter } from './lasts-as-asked.js';
import { withCooler } from './cooler-evidence.js';
import { withoutOthers } from './of-others.js';
import { reachesSetpoint, valueEvidence, type StatedExposure } from './structure.js';

/** A kind with the events that are ruled out. */
export interface Candidate {
  readonly kind: Kind;
  readonly only?: readonly EventName[];
  /** Elapsed duration, ms, if its rows state both ends. */
  readonly tookMs?: readonly number[];
  /** The number that states the duration, if no time does. */
  readonly took?: Slot;
  /** External evidence, such as exposures matching the session's frames. */
  readonly extra?: ReadonlyMap<EventName, number>;
}

const SHARE = wordList('percent* prozent* pourcent* percentual* porcentaje* percentagem procent* progress pct');
const PROGRESS = 2;
/** Weight of an exposure ending after exactly its stated length. */
export const STATED = 4;
/** Weak value evidence for an exposure, shared by many other lines. */
const UNNAMED_EXPOSURE = 1.7;
const CLOSED = 0.3;
const COOLS = 0.6;
const ARCSECONDS =
  /^(?:arc(?:sec|min)\w*|(?:bogen|boog)(?:sek|sec|min)\w*|asec|as|amin|["″'′]|秒角|角秒|角分|分角|초각|각초)$/u;
const OF_PLACE = ['slew-begin', 'slew-end', 'centre-begin', 'centre-end'] as const;
const ARCMINUTES = /min|^['′]$|^(?:角分|分角)$/u;
const MEASURED = 1.8;
const BY_PIXELS = [
  ['slew-begin', 'dither-begin'],
  ['slew-end', 'dither-end'],
  ['exposure-begin', 'dither-begin'],
  // A wait for a dither does not state its distance.
  ['dither-ready', 'dither-begin'],
] as const;
const PIXELS = 0.5;
/** Weaker words belong to the device that wrote the line. */
const FAINT = 2;
/** A line that states a duration reports an end. */
const TOOK = 0.8;
/** Seconds that fit the timeline only as elapsed, or only as planned. */
const PASSED = 1.2;

/** Seconds that only an exposure lasts, with a word that it is over, and none that its file was written. */
function saysOver({ wording, lead, slots }: Kind): boolean {
  const message = wording.slice(lead);
  const isLong = slots.some(
    (slot) => isOfSeconds(slot) && slot.values.every((value) => numberIn(value) * (tookUnit(slot) ?? 1) >= LONG_S),
  );
  return isLong && endsSomething(message) && !saysSaved(message) && !saysLost(message);
}
const LONG_S = 20;

/** The evidence of a kind's words and values, without its neighbours. */
export function ownEvidence(
  { kind, only, extra, tookMs, took }: Candidate,
  stated: readonly StatedExposure[],
  duration: Stated | undefined,
): Map<EventName, number> {
  const evidence = wordEvidence(kind.wording, kind.hints, kind.lead);
  // `Arrived at NGC 281`: movement to an object needs no further name.
  const types = new Set(kind.slots.map(({ type }) => type));
  if (evidence.size === 0 && types.has('designation') && !types.has('filter') && !types.has('file'))
    for (const [event, value] of moveEvidence(kind.wording.slice(kind.lead))) evidence.set(event, value);
  // `Change to OIII`: a change to a filter needs no further name either.
  if (evidence.size === 0 && types.has('filter') && !types.has('designation') && !types.has('file'))
    for (const [event, value] of turnEvidence(kind.wording.slice(kind.lead))) evidence.set(event, value);
  if (Math.max(0, ...evidence.values()) < FAINT && kind.slots.some(isPixels))
    for (const [event, value] of shiftEvidence(kind.wording.slice(kind.lead))) evidence.set(event, value);
  const named = evidence.size > 0;
  if (!hasTime(kind)) return new Map();
  const cools = evidence.has('cooler') || reachesSetpoint(kind);
  for (const [event, value] of valueEvidence(kind)) {
    const before = evidence.get(event);
    // Values alone only indicate a saved frame or a cooler; otherwise they add to words.
    if (event === 'cooler' && !cools) continue;
    if (before === undefined && event.startsWith('exposure') && value < UNNAMED_EXPOSURE) continue;
    if (before !== undefined || value >= 2 || (!named && kind.count > 1)) evidence.set(event, (before ?? 0) + value);
  }
  // A time of its own is no evidence against anything.
  const others = [...evidence].flatMap(([event, value]) => (event === 'frame-saved' ? [] : [value]));
  if (Math.max(0, ...others) <= HINTED && lastsThroughFilter(kind, duration)) {
    for (const event of evidence.keys()) if (SELDOM.test(event)) evidence.delete(event);
    evidence.set('exposure-end', (evidence.get('exposure-end') ?? 0) + THROUGH_FILTER);
  }
  // `Giving up on wren-0004.fits`: no file resulted.
  if (types.has('file') && saysLost(kind.wording.slice(kind.lead))) evidence.delete('frame-saved');
  const said = kind.wording.slice(kind.lead);
  if (!types.has('file') && !saysSaved(said) && statesRoom(kind)) evidence.delete('frame-saved');
  addUnwritten([said, ...cellTexts(kind)].join(' '), evidence);
  // A row that names the file it saves has the frame's filter: no wheel turns.
  if (types.has('file') && !namesWheel(kind.wording))
    for (const event of ['filter-begin', 'filter-end'] as const) evidence.delete(event);
  // One temperature is the setpoint and the other approaches it, whatever the words.
  if (reachesSetpoint(kind)) evidence.set('cooler', Math.max(0, ...evidence.values()) + COOLS);
  // `Closes heron, saved as heron_001.fits`: the event is the closing of the shutter. `finished 120 s R of M 101 ->
  // m101_001.fits`: a span this long that is over is an exposure.
  const namesFrame = types.has('filter') || types.has('designation');
  if (types.has('file') && (saysClosed(kind.wording.slice(kind.lead)) || (namesFrame && saysOver(kind))))
    evidence.set(
      'exposure-end',
      Math.max(evidence.get('exposure-end') ?? 0, (evidence.get('frame-saved') ?? 0) + CLOSED),
    );
  // A movement measured in pixels is neither a slew to a target nor a shutter.
  if (!['designation', 'filter', 'file'].some((type) => types.has(type as ValueType)) && kind.slots.some(isPixels))
    for (const [other, dither] of BY_PIXELS) {
      const value = evidence.get(other);
      if (value === undefined) continue;
      evidence.delete(other);
      evidence.set(dither, Math.max(evidence.get(dither) ?? 0, value + PIXELS));
    }
  for (const one of stated) {
    if (one.begin === kind) evidence.set('exposure-begin', (evidence.get('exposure-begin') ?? 0) + STATED);
    if (one.end === kind) evidence.set('exposure-end', (evidence.get('exposure-end') ?? 0) + STATED / 2);
  }
  for (const [event, value] of extra ?? []) evidence.set(event, (evidence.get(event) ?? 0) + value);
  // The progress of an exposure does not begin one.
  if (isProgress(kind))
    for (const event of ['exposure-begin', 'exposure-end'] as const)
      if (evidence.has(event)) evidence.set(event, (evidence.get(event) ?? 0) - PROGRESS);
  withCooler(kind, evidence);
  // A cooled sensor causes no hold, whatever its device is called.
  const cooled = evidence.get('cooler') ?? 0;
  for (const event of ['hold-begin', 'hold-end'] as const)
    if (cooled > (evidence.get(event) ?? 0)) evidence.delete(event);
  // `Plate 2: off by 17″`: centring continues and nothing begins.
  if (measuresPlace(kind) && tookMs === undefined) for (const event of OF_PLACE) lower(evidence, event, MEASURED);
  withoutOthers(evidence, kind, tookMs);
  if (tookMs !== undefined && lastsAsAsked(kind, tookMs, took))
    evidence.set('exposure-end', (evidence.get('exposure-end') ?? 0) + STATED);
  const tells = statesTook(kind) || tookMs !== undefined;
  if (tells || duration === 'past') {
    // Anything with an elapsed duration is over, whatever the word for it.
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

/** `disk: 90 GB free`: a size and no file is what is left of a disk. */
function statesRoom({ slots }: Kind): boolean {
  return slots.some(
    ({ type, after, values }) =>
      (type === 'number' && SIZE.test(after)) || (type === 'text' && values.length > 0 && values.every(isSize)),
  );
}
const SIZE = /^[KMGT]i?[BO]$/i;
const isSize = (text: string): boolean => /^\d+(?:[.,]\d+)?\s?[KMGT]i?[BO](?![\p{L}\d])/iu.test(text);

/** Words with this much evidence, including the outcome, only hint at the subject. */
const HINTED = 2.4;
const SELDOM = /^(?:slew|flip|centre|hold)-/;
const THROUGH_FILTER = 2.4;
function lower(evidence: Map<EventName, number>, event: EventName, by: number): void {
  const value = evidence.get(event);
  if (value !== undefined) evidence.set(event, value - by);
}

/** Whether a line states a pointing offset, a small angle, and not an arrival. */
export function measuresPlace({ wording, lead, slots }: Kind): boolean {
  if (!slots.some(isArcseconds) || /\n|->|→/.test(wording)) return false;
  return !endsSomething(wording.slice(lead));
}

/** The small angle that each line of a kind states, arcseconds; a signed error does not count. */
export function arcsecondsIn({ slots }: Kind): readonly number[] | undefined {
  const [only, second] = slots.filter(isArcseconds);
  if (only === undefined || second !== undefined || !only.values.every((value) => /^\d/.test(value))) return undefined;
  const unit = [only.after, ...only.before.slice(0, 2)].find((word) => ARCSECONDS.test(word)) ?? '';
  return only.perLine.map((value) => numberIn(value) * (ARCMINUTES.test(unit) ? 60 : 1));
}

/** A value that is the same on every line is a limit; `off=52.1` needs no unit. */
function isArcseconds(slot: Slot): boolean {
  const { type, after, before, values, path } = slot;
  if (type !== 'number' || values.length < 2) return false;
  if (ARCSECONDS.test(after) || before.slice(0, 2).some((word) => ARCSECONDS.test(word))) return true;
  return path === null && before[0] === 'off' && !isPixels(slot) && tookUnit(slot) === null;
}

/** Whether the lines state the progress of something that has neither begun nor ended. */
function isProgress({ slots }: Kind): boolean {
  return slots.some(
    ({ type, after, before, values }) =>
      type === 'number' &&
      (after === '%' || before.some((word) => SHARE.test(word))) &&
      values.some((value) => numberIn(value) > 0 && numberIn(value) < 100),
  );
}

/** Whether the lines name frame files. */
export function hasFile(kind: Kind): boolean {
  return kind.slots.some(({ type }) => type === 'file');
}

/** Lines without a time, such as column headers, are not events. */
export function hasTime(kind: Kind): boolean {
  return kind.atMs.some((atMs) => !Number.isNaN(atMs));
}
