/**
 * A clock that was set by a whole hour in the night, as summer time or a hand does: what was written after it, by the
 * order in which it was written, for in the hour that occurs twice the time does not tell.
 */
import {
  groupBy,
  isDated,
  itemAt,
  median,
  sortedBy,
  type ClockSource,
  type DatedHeader,
  type HeaderFrame,
  type LineTimes,
  type Source,
  type TellingEvent,
} from '../../model/index.js';
import { logExposures, type LogExposure } from '../log-exposures.js';
import { isBoth, pairByName } from '../pair-by-name.js';

export const HOUR_MS = 3_600_000;
/** Sizes this far from an hour are another matter, ms. */
export const NEAR_MS = 5000;
/** Differences of header and log that belong together are this alike, ms. */
const ALIKE_MS = 3000;
/** Exposures on either side that prove a step between header and log. */
const FEWEST = 2;
/** A step back shows as lines that go back by this much at least: an hour less an exposure, ms. */
export const LEAST_BACK_MS = 40 * 60_000;

type TrainHeader = HeaderFrame & { readonly train: string };

/** A step of one train's clock, and what was written after it. */
export interface HourStep {
  readonly train: string;
  readonly sources: readonly ClockSource[];
  /** When, in times as written before it, UTC ms. */
  readonly atMs: number;
  /** An hour, forward; negative: back. */
  readonly byMs: number;
  /** The evidence in words. */
  readonly by: string;
  isAfter(written: TellingEvent | TrainHeader): boolean;
  /** The first index after it of the instants of a log's lines. */
  lineFrom(own: LineTimes): number;
}

/** What one train's computer wrote. */
export interface Writing {
  readonly train: string;
  readonly headers: readonly TrainHeader[];
  readonly events: readonly TellingEvent[];
}

/** A record without line numbers is in its order of time, and no line comes before the first. */
const lineIn = (source: Source | undefined): number => source?.line ?? -1;
const lineNumber = ({ source }: TellingEvent): number => lineIn(source);

export const isHour = (ms: number): boolean => Math.abs(Math.abs(ms) - HOUR_MS) <= NEAR_MS;

const inOrder = (events: readonly TellingEvent[]): readonly TellingEvent[] => sortedBy(events, lineNumber);

/** The log in which a train's exposures are; others are placed by its times. */
function mainLog({ events }: Writing): readonly TellingEvent[] {
  const [most] = [...groupBy(events, (e) => e.source.file).values()].sort((a, b) => b.length - a.length);
  return inOrder(most ?? []);
}

/** The step that header and log of the same exposures prove: they differ by an hour more, or less, from one on. */
export function stepInPairs(writing: Writing): HourStep | null {
  const log = mainLog(writing);
  const { exposures } = logExposures(log);
  const order = new Map(exposures.map((exposure, i) => [exposure, i]));
  const pairs = sortedBy(
    pairByName(writing.headers.filter(isDated), exposures).filter(isBoth),
    ({ log: exposure }) => order.get(exposure) ?? Infinity,
  );
  const apart = pairs.map(({ header, log: exposure }) => header.exposure.startMs - exposure.beginMs);
  const split = apart.findIndex((ms) => Math.abs(ms - itemAt(apart, 0)) > HOUR_MS / 2);
  if (split < FEWEST || apart.length - split < FEWEST) return null;
  const [before, after] = [apart.slice(0, split), apart.slice(split)];
  const byMs = median(after) - median(before);
  if (!isHour(byMs) || !areAlike(before) || !areAlike(after)) return null;
  const [last, first] = [itemAt(pairs, split - 1), itemAt(pairs, split)];
  const isOfHeaders =
    idleMs(last.header.exposure.endMs, first.header.exposure.startMs) > idleMs(last.log.endMs, first.log.beginMs);
  const step = isOfHeaders
    ? { source: 'headers' as const, byMs: Math.sign(byMs) * HOUR_MS }
    : { source: 'log' as const, byMs: -Math.sign(byMs) * HOUR_MS };
  return stepOf(writing, log, [step.source], step.byMs, {
    from: lineOf(last.log),
    to: lineOf(first.log),
    pairs: pairs.map(({ header }, i) => ({ header, isLater: i >= split })),
    by: `${pairs.length} exposures in its log and its headers`,
  });
}

/** How long a train seems to rest: no rest is shorter than none, so that an overlap is the longest. */
function idleMs(endMs: number, beginMs: number): number {
  return beginMs < endMs - 1000 ? Infinity : beginMs - endMs;
}

function areAlike(apart: readonly number[]): boolean {
  const middle = median(apart);
  return apart.every((ms) => Math.abs(ms - middle) <= ALIKE_MS);
}

const lineOf = ({ sources }: LogExposure): number => lineIn(sources[0]);

/**
 * A step of the whole computer, headers and log, at the place in its log where an hour is missing, or comes twice;
 * `null` if there is no such place.
 *
 * @param byMs an hour, forward or back
 */
export function stepInLines(writing: Writing, byMs: number): HourStep | null {
  const log = mainLog(writing);
  const { exposures } = logExposures(log);
  const pairs = pairByName(writing.headers.filter(isDated), exposures).filter(isBoth);
  const at = placeOf(log, Math.sign(byMs), undefined, undefined);
  if (at === null) return null;
  const apartMs = itemAt(log, at).atMs - itemAt(log, at - 1).atMs;
  if (byMs < 0 ? apartMs > -LEAST_BACK_MS : apartMs < HOUR_MS - NEAR_MS) return null;
  const fromLine = lineNumber(itemAt(log, at));
  const isLater = (exposure: LogExposure): boolean => lineOf(exposure) >= fromLine;
  return stepOf(writing, log, ['headers', 'log'], Math.sign(byMs) * HOUR_MS, {
    from: undefined,
    to: undefined,
    pairs: pairs.map(({ header, log: exposure }) => ({ header, isLater: isLater(exposure) })),
    by: `an hour that its log ${byMs < 0 ? 'has twice' : 'lacks'}, and the other trains`,
  });
}

/** Where the times go on most, or go back most, between two lines: the index of the first event after it. */
function placeOf(
  log: readonly TellingEvent[],
  sign: number,
  from: number | undefined,
  to: number | undefined,
): number | null {
  let best: { readonly index: number; readonly ms: number } | null = null;
  for (let i = 1; i < log.length; i++) {
    const [before, after] = [itemAt(log, i - 1), itemAt(log, i)];
    const line = lineNumber(after);
    if ((from !== undefined && line <= from) || (to !== undefined && line > to)) continue;
    const ms = sign * (after.atMs - before.atMs);
    if (best === null || ms > best.ms) best = { index: i, ms };
  }
  return best?.index ?? null;
}

/** The lines between which it was, and the headers whose exposures say on which side they are. */
interface Known {
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly pairs: readonly { readonly header: DatedHeader; readonly isLater: boolean }[];
  readonly by: string;
}

/** The step with everything on its side; `null` if something written in the hour that occurs twice is on neither. */
function stepOf(
  { train, headers, events }: Writing,
  log: readonly TellingEvent[],
  sources: readonly ClockSource[],
  byMs: number,
  known: Known,
): HourStep | null {
  // Headers alone stepped: their own begins tell, and the log's lines are those of the pairs.
  const at = placeOf(log, sources.includes('log') ? Math.sign(byMs) : 1, known.from, known.to);
  if (at === null) return null;
  const [last, first] = [itemAt(log, at - 1), itemAt(log, at)];
  const { file } = last.source;
  const fromLine = lineNumber(first);
  const [lastMs, firstMs] = sources.includes('log') ? [last.atMs, first.atMs] : endsOf(known);
  const byTime = (atMs: number): boolean | null => (atMs > lastMs ? true : byMs > 0 || atMs < firstMs ? false : null);
  const later = new Map(known.pairs.map(({ header, isLater }) => [header.file, isLater]));
  const sideOf = (written: TellingEvent | TrainHeader): boolean | null => {
    if ('event' in written) {
      if (!sources.includes('log')) return false;
      return written.source.file === file ? lineNumber(written) >= fromLine : byTime(written.atMs);
    }
    if (!sources.includes('headers') || !isDated(written)) return false;
    return later.get(written.file) ?? byTime(written.exposure.startMs);
  };
  if ([...events, ...headers].some((written) => sideOf(written) === null)) return null;
  return {
    train,
    sources,
    atMs: lastMs,
    byMs,
    by: known.by,
    isAfter: (written) => sideOf(written) === true,
    lineFrom: ({ atMs, file: own }) => {
      if (!sources.includes('log')) return atMs.length;
      const index = atMs.findIndex((ms, i) =>
        byMs > 0 ? ms > lastMs : own === file && i > 0 && itemAt(atMs, i - 1) - ms >= LEAST_BACK_MS,
      );
      return index === -1 ? atMs.length : index;
    },
  };
}

/** The last header before the step and the first after it. */
function endsOf({ pairs }: Known): [number, number] {
  const begins = (side: boolean): number[] =>
    pairs.flatMap(({ header, isLater }) => (isLater === side ? [header.exposure.startMs] : []));
  return [Math.max(...begins(false)), Math.min(...begins(true))];
}
