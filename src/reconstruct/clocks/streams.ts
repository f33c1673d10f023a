/** A night's data sorted by the clock that wrote it: per train its headers and its log. */
import {
  durationMs,
  groupBy,
  isDated,
  itemAt,
  sortedBy,
  type ClockJump,
  type DatedHeader,
  type EventName,
  type HeaderFrame,
  type Interval,
  type LineTimes,
  type TellingEvent,
} from '../../model/index.js';
import { endOfLog, logExposures, type LogExposure } from '../log-exposures.js';
import { isBoth, pairByName } from '../pair-by-name.js';
import { offsetBySequence, offsetOf, type ClockOffset, type TimedExposure } from './differences.js';
import type { Shutter } from './cadence.js';
import { jumpInLines, oddLengths, provenJump, type OddLength } from './jump.js';
import type { SharedEvents } from './shared-events.js';

/** What one train's computer wrote. */
export interface TrainStreams {
  readonly train: string;
  readonly log: readonly Shutter[];
  readonly headers: readonly Shutter[];
  /** Its reports of waiting for the mount, on its log's clock. */
  readonly readyMs: readonly number[];
  /** By name, for events that more than one computer may write down. */
  readonly sharedMs: ReadonlyMap<EventName, readonly number[]>;
  /** Moves for dithers and settling in its log. */
  readonly moves: readonly Interval[];
  readonly settlings: readonly Interval[];
  /** How far its headers are ahead of its log; `null` if they share no exposure. */
  readonly headersAhead: ClockOffset | null;
  /** Whether its headers say that their clock is synchronised. */
  readonly isVouched: boolean;
  /** Where its log's lines go back in time: a jump of its clock by at least that much. */
  readonly backwards: ClockJump | null;
  /** A jump proven by an exposure that is shorter in the log than in its file. */
  readonly jump: ClockJump | null;
  /** Exposures whose logged length hints at one. */
  readonly oddLengths: readonly OddLength[];
}

/** Events of the shared mount and guiding that two computers may both write down. */
const SHARED_EVENTS: readonly EventName[] = [
  'dither-begin',
  'dither-end',
  'settling-begin',
  'settling-end',
  'flip-begin',
  'flip-end',
  'guiding-rest-begin',
  'guiding-rest-end',
  'star-gap-begin',
  'star-gap-end',
];

/** Sorts one train's headers, events and lines. */
export function trainStreams(
  train: string,
  headers: readonly HeaderFrame[],
  events: readonly TellingEvent[],
  lineTimes: readonly LineTimes[],
): TrainStreams {
  const own = sortedBy(events, (e) => e.atMs);
  const { exposures } = logExposures(own, endOfLog(lineTimes));
  const dated = headers.filter(isDated);
  const pairs = pairByName(dated, exposures).filter(isBoth);
  const fullMs = new Map(pairs.map(({ header, log }) => [log, durationMs(header.exposure)] as const));
  const odd = oddLengths(exposures, (exposure) => fullMs.get(exposure));
  const times = groupBy(own, (e): EventName => e.event);
  const at = (name: EventName): number[] => times.get(name)?.map((e) => e.atMs) ?? [];
  return {
    train,
    log: withWork(
      exposures,
      [...at('focus-begin'), ...at('filter-begin')].sort((a, b) => a - b),
    ),
    headers: dated
      .filter((h) => h.kind === 'light')
      .map(({ exposure }) => ({ beginMs: exposure.startMs, endMs: exposure.endMs })),
    readyMs: at('dither-ready'),
    sharedMs: new Map(SHARED_EVENTS.map((name) => [name, at(name)] as const).filter(([, times]) => times.length > 0)),
    moves: spans(at('dither-begin'), at('dither-end')),
    settlings: spans(at('settling-begin'), at('settling-end')),
    headersAhead: headersAhead(pairs, dated, exposures),
    isVouched: dated.length > 0 && dated.every((h) => h.isClockVouched === true),
    backwards: jumpInLines(lineTimes),
    jump: provenJump(odd),
    oddLengths: odd,
  };
}

/** Exposures as shutters, each with the first work of its train after the previous one. @param workMs begins, sorted */
function withWork(exposures: readonly LogExposure[], workMs: readonly number[]): Shutter[] {
  const sorted = sortedBy(exposures, (e) => e.beginMs);
  let w = 0;
  return sorted.map(({ beginMs, endMs, savedMs }, i) => {
    const sinceMs = sorted[i - 1]?.endMs ?? -Infinity;
    while (w < workMs.length && itemAt(workMs, w) < sinceMs) w++;
    const own = workMs[w];
    const shutter = { beginMs, endMs, readyMs: savedMs };
    return own !== undefined && own < beginMs ? { ...shutter, workMs: own } : shutter;
  });
}

function headersAhead(
  pairs: readonly { readonly header: DatedHeader; readonly log: LogExposure }[],
  headers: readonly DatedHeader[],
  exposures: readonly LogExposure[],
): ClockOffset | null {
  const named = offsetOf(pairs.map(({ header, log }) => header.exposure.startMs - log.beginMs));
  if (named) return named;
  return offsetBySequence(
    exposures.map((e): TimedExposure => ({ beginMs: e.beginMs, lengthMs: e.endMs - e.beginMs })),
    headers.map(({ exposure }): TimedExposure => ({ beginMs: exposure.startMs, lengthMs: durationMs(exposure) })),
  );
}

/**
 * Each begin with the first end after it and before the next begin; a begin without an end has length zero. Both are in
 * order.
 */
function spans(begins: readonly number[], ends: readonly number[]): Interval[] {
  let at = 0;
  return begins.map((startMs, i) => {
    while (at < ends.length && itemAt(ends, at) < startMs) at++;
    const endMs = ends[at] ?? Infinity;
    return { startMs, endMs: endMs <= (begins[i + 1] ?? Number.MAX_VALUE) ? endMs : startMs };
  });
}

/** Mount and guiding events that two logs may both report, under names that both use. */
export function sharedEvents(reference: TrainStreams, other: TrainStreams): SharedEvents[] {
  return [...reference.sharedMs].flatMap(([name, referenceMs]) => {
    const otherMs = other.sharedMs.get(name);
    return otherMs ? [{ referenceMs, otherMs }] : [];
  });
}
