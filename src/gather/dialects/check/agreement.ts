import { groupBy, type LogEvent } from '../../../model/index.js';

/** A frame of the session, reduced to what a log can be compared with. */
export interface FrameTimes {
  readonly file: string;
  readonly beginMs: number;
  readonly seconds: number;
  /** What the header says, and the train that the frame is one of, as far as known. */
  readonly train?: string;
  readonly filter?: string;
  readonly target?: string;
}

/** How well the exposures of a log agree with the frame headers. */
export interface Agreement {
  readonly frames: number;
  readonly exposures: number;
  /** Exposures matched to a frame. */
  readonly agreeing: number;
  /** Trains that the log names but none of whose exposures matches a frame, with their exposure counts. */
  readonly strangers: readonly { readonly train: string; readonly exposures: number }[];
  /** The log's clock relative to the headers, median over the pairs, seconds; positive: the log is ahead. */
  readonly aheadSeconds: number;
  /** Whole quarter hours by which the log's times are off; 0 when they are not. */
  readonly zoneMinutes: number;
}

/** Maximum distance between a line and a header of the same exposure. */
const NEAR_MS = 8000;
/** A smaller fraction of the possible pairs may be chance. */
const FEW = 0.5;
const QUARTER_MS = 900_000;
/** Largest difference between two zones. */
const MAX_QUARTERS = 26 * 4;

/** Compares exposure begins with frames; tries other zones where hardly any agree. `null` without begins or frames. */
export function agreement(events: readonly LogEvent[], frames: readonly FrameTimes[]): Agreement | null {
  const opened = events.filter(({ event }) => event === 'exposure-begin');
  const begins = opened.map(({ atMs }) => atMs);
  if (begins.length === 0 || frames.length === 0) return null;
  const starts = frames.map(({ beginMs }) => beginMs).sort((a, b) => a - b);
  let best = { quarters: 0, pairs: pairsAt(begins, starts, 0) };
  if (best.pairs.length < FEW * Math.min(begins.length, starts.length)) {
    for (let quarters = -MAX_QUARTERS; quarters <= MAX_QUARTERS; quarters++) {
      const pairs = pairsAt(begins, starts, quarters * QUARTER_MS);
      if (pairs.length > best.pairs.length) best = { quarters, pairs };
    }
  }
  const sorted = best.pairs.map(({ gapMs }) => gapMs).sort((a, b) => a - b);
  const paired = new Set(best.pairs.map(({ begin }) => opened[begin]));
  return {
    frames: frames.length,
    exposures: begins.length,
    agreeing: sorted.length,
    strangers: strangers(opened, paired),
    aheadSeconds: (sorted[Math.floor(sorted.length / 2)] ?? 0) / 1000,
    zoneMinutes: best.quarters * 15,
  };
}

/** Named trains all of whose exposures lack a frame, next to others whose exposures have one. */
function strangers(opened: readonly LogEvent[], paired: ReadonlySet<LogEvent | undefined>): Agreement['strangers'] {
  if (paired.size === 0) return [];
  return [...groupBy(opened, ({ train }) => train)].flatMap(([train, own]) =>
    train === undefined || own.some((one) => paired.has(one)) ? [] : [{ train, exposures: own.length }],
  );
}

interface Pair {
  /** Index of the exposure in the log. */
  readonly begin: number;
  /** How far the log is ahead, ms. */
  readonly gapMs: number;
}

/**
 * Begins paired with nearby frames, closest first: a frame belongs to one exposure, and two trains often begin
 * together.
 *
 * @param starts sorted
 */
function pairsAt(begins: readonly number[], starts: readonly number[], shiftMs: number): Pair[] {
  const near = begins.flatMap((atMs, begin) => {
    const wanted = atMs - shiftMs;
    const found: (Pair & { readonly start: number })[] = [];
    for (let start = firstFrom(starts, wanted - NEAR_MS); start < starts.length; start++) {
      const gapMs = wanted - (starts[start] ?? Infinity);
      if (gapMs < -NEAR_MS) break;
      found.push({ begin, start, gapMs });
    }
    return found;
  });
  const takenBegins = new Set<number>();
  const takenStarts = new Set<number>();
  return near
    .sort((a, b) => Math.abs(a.gapMs) - Math.abs(b.gapMs))
    .filter(({ begin, start }) => {
      if (takenBegins.has(begin) || takenStarts.has(start)) return false;
      takenBegins.add(begin);
      takenStarts.add(start);
      return true;
    });
}

/** Index of the first value that is at least this large. */
function firstFrom(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The agreement as a sentence. */
export function agreementNote({
  frames,
  exposures,
  agreeing,
  strangers,
  aheadSeconds,
  zoneMinutes,
}: Agreement): string {
  const head =
    `${agreeing} of ${exposures} exposures of the log have a frame of their own that begins within ` +
    `${NEAR_MS / 1000} s (${frames} frames in the session)`;
  if (agreeing === 0) return `${head}: are the time zone and the date right?`;
  if (agreeing < FEW * Math.min(exposures, frames))
    return `${head}, as so few may by chance: are the time zone and the date right, and are these the log’s frames?`;
  const ahead = Math.abs(aheadSeconds).toFixed(1);
  const clock =
    Number(ahead) === 0 ? 'log and headers agree' : `the log is ${ahead} s ${aheadSeconds < 0 ? 'behind' : 'ahead'}`;
  const alone = strangers.map(
    ({ train, exposures: own }) =>
      ` None of the ${own} of ${train} has: its computer’s clock is off, or its frames are elsewhere.`,
  );
  if (zoneMinutes === 0) return `${head}; ${clock}.${alone.join('')}`;
  const hours = `${zoneMinutes < 0 ? '−' : '+'}${Math.abs(zoneMinutes) / 60} h`;
  return `${head}, once the log is taken to be off by ${hours}: "zone" in the dialect is wrong by that.`;
}
