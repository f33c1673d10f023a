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
  /** Frames by train and filter, and how many of them have an exposure; empty where headers tell neither. */
  readonly groups: readonly FrameGroup[];
  /** The log's clock relative to the headers, median over the pairs, seconds; positive: the log is ahead. */
  readonly aheadSeconds: number;
  /** Whole quarter hours by which the log's times are off; 0 when they are not. */
  readonly zoneMinutes: number;
}

/** The frames of a train through a filter. */
export interface FrameGroup {
  readonly train: string | undefined;
  readonly filter: string | undefined;
  readonly frames: number;
  readonly paired: number;
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
  const starts = [...frames].sort((a, b) => a.beginMs - b.beginMs);
  let best = { quarters: 0, pairs: pairsAt(opened, starts, 0) };
  if (best.pairs.length < FEW * Math.min(begins.length, starts.length)) {
    for (let quarters = -MAX_QUARTERS; quarters <= MAX_QUARTERS; quarters++) {
      const pairs = pairsAt(opened, starts, quarters * QUARTER_MS);
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
    groups: groupsOf(starts, new Set(best.pairs.map(({ start }) => start))),
    aheadSeconds: (sorted[Math.floor(sorted.length / 2)] ?? 0) / 1000,
    zoneMinutes: best.quarters * 15,
  };
}

/** The frames by train and filter, most frames first within a train. */
function groupsOf(frames: readonly FrameTimes[], paired: ReadonlySet<number>): FrameGroup[] {
  if (!frames.some(({ train, filter }) => train !== undefined || filter !== undefined)) return [];
  const numbered = frames.map((frame, i) => ({ frame, isPaired: paired.has(i) }));
  return [...groupBy(numbered, ({ frame: { train = '' } }) => train)]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([train, ofTrain]) =>
      [...groupBy(ofTrain, ({ frame: { filter = '' } }) => filter)]
        .sort((a, b) => b[1].length - a[1].length)
        .map(([filter, own]) => ({
          train: train === '' ? undefined : train,
          filter: filter === '' ? undefined : filter,
          frames: own.length,
          paired: own.filter(({ isPaired }) => isPaired).length,
        })),
    );
}

/** Named trains all of whose exposures lack a frame, next to others whose exposures have one. */
function strangers(opened: readonly LogEvent[], paired: ReadonlySet<LogEvent | undefined>): Agreement['strangers'] {
  if (paired.size === 0) return [];
  return [...groupBy(opened, ({ train }) => train)].flatMap(([train, own]) =>
    train === undefined || own.some((one) => paired.has(one)) ? [] : [{ train, exposures: own.length }],
  );
}

interface Pair {
  /** Index of the exposure in the log, and of its frame. */
  readonly begin: number;
  readonly start: number;
  /** How far the log is ahead, ms. */
  readonly gapMs: number;
}

/**
 * Begins paired with nearby frames, closest first: a frame belongs to one exposure, and two trains often begin
 * together. Of such frames the one with the filter and the length of the exposure is its own.
 *
 * @param frames sorted by their beginnings
 */
function pairsAt(opened: readonly LogEvent[], frames: readonly FrameTimes[], shiftMs: number): Pair[] {
  const starts = frames.map(({ beginMs }) => beginMs);
  const near = opened.flatMap((event, begin) => {
    const wanted = event.atMs - shiftMs;
    const found: (Pair & { readonly differs: number })[] = [];
    for (let start = firstFrom(starts, wanted - NEAR_MS); start < starts.length; start++) {
      const gapMs = wanted - (starts[start] ?? Infinity);
      if (gapMs < -NEAR_MS) break;
      found.push({ begin, start, gapMs, differs: differences(event, frames[start]) });
    }
    return found;
  });
  const takenBegins = new Set<number>();
  const takenStarts = new Set<number>();
  return near
    .sort((a, b) => a.differs - b.differs || Math.abs(a.gapMs) - Math.abs(b.gapMs))
    .filter(({ begin, start }) => {
      if (takenBegins.has(begin) || takenStarts.has(start)) return false;
      takenBegins.add(begin);
      takenStarts.add(start);
      return true;
    });
}

/** How many facts of an exposure are other ones than those of a frame; unknown ones are not. */
function differences(event: LogEvent, frame: FrameTimes | undefined): number {
  if (event.event !== 'exposure-begin' || frame === undefined) return 0;
  const isOther = (a: string | undefined, b: string | undefined): boolean =>
    a !== undefined && b !== undefined && a.toLowerCase() !== b.toLowerCase();
  return (
    Number(isOther(event.train, frame.train)) +
    Number(isOther(event.filter, frame.filter)) +
    Number(event.seconds !== undefined && Math.abs(event.seconds - frame.seconds) > 1)
  );
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

/** Groups of frames that are listed at most. */
const MOST_GROUPS = 24;

/** The groups as a sentence, those without an exposure said apart; empty if there are none. */
function groupsNote(groups: readonly FrameGroup[]): string {
  if (groups.length === 0 || groups.length > MOST_GROUPS) return '';
  const named = ({ train, filter }: FrameGroup): string =>
    [train, filter ?? 'without a filter'].flatMap((x) => x ?? []).join(' ');
  const listed = groups.map((group) => `${named(group)} ${group.paired} of ${group.frames}`);
  const none = groups.filter(({ paired }) => paired === 0).map(named);
  const alone = none.length === 0 ? '' : ` No frame of ${none.join(', ')} has one: are their lines read?`;
  return ` Frames with an exposure in the log: ${listed.join(', ')}.${alone}`;
}

/** The agreement as a sentence. */
export function agreementNote({
  frames,
  exposures,
  agreeing,
  strangers,
  groups,
  aheadSeconds,
  zoneMinutes,
}: Agreement): string {
  const head =
    `${agreeing} of ${exposures} exposures of the log have a frame of their own that begins within ` +
    `${NEAR_MS / 1000} s (${frames} frames in the session)`;
  if (agreeing === 0) return `${head}: are the time zone and the date right?`;
  if (agreeing < FEW * Math.min(exposures, frames))
    return `${head}, which may be chance: are the time zone and the date right, and are these the log’s frames?`;
  const ahead = Math.abs(aheadSeconds).toFixed(1);
  const clock =
    Number(ahead) === 0 ? 'log and headers agree' : `the log is ${ahead} s ${aheadSeconds < 0 ? 'behind' : 'ahead'}`;
  const alone = strangers.map(
    ({ train, exposures: own }) =>
      ` None of the ${own} of ${train} has one: its computer’s clock is off, or its frames are elsewhere.`,
  );
  if (zoneMinutes === 0) return `${head}; ${clock}.${alone.join('')}${groupsNote(groups)}`;
  const hours = `${zoneMinutes < 0 ? '−' : '+'}${Math.abs(zoneMinutes) / 60} h`;
  return `${head}, if the log is taken to be off by ${hours}: "zone" in the dialect is wrong by that much.`;
}
