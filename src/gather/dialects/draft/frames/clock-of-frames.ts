import type { FrameTimes } from '../../check/agreement.js';
import { aheadOfUtcMs, offsetName } from '../../time/zone.js';
import type { DraftReport } from '../report.js';
import type { LogSample } from '../sample.js';
import { bestFits, fitAt, type Fit } from './coincidence.js';
import { readBeside, type NightOfFrames, type ReadInstants } from './read-beside.js';
import { SOME_BASE, timeVariants } from './time-variants.js';

/** Largest distance between a line and the beginning of the frame that it is about, ms. */
const NEAR_MS = 8000;
const MINUTE_MS = 60_000;
/** Fewer frames, or exposures, prove nothing. */
const LEAST = 5;
/** Fraction of the possible pairs that prove a clock; with fewer than the latter the log speaks of something else. */
const PROVED = 0.8;
const SOME = 0.5;
/** A shift explains clearly more than none. */
const MORE = 1.15;
const QUARTER_MS = 900_000;
const HOUR_MS = 3_600_000;
/** Offsets of zones from UTC. */
const EAST_MS = 14 * HOUR_MS;
const WEST_MS = -12 * HOUR_MS;
/** A shift about as long as the frames is that of beginnings taken for ends, ms. */
const LIKE_LENGTH_MS = 20_000;
/** Bases of counts are on whole hours more often than not (common practice, no source). */
const WHOLE_MS = 2500;
/** A clock that is off by more than the hours of any zone is another night's. */
const LONGEST_MS = 14 * HOUR_MS;
const SITE_FIRST = ['site', 'utc'];

/** What the frames say of a draft's clock. */
export type ClockVerdict =
  /** Too few frames or exposures, or none. */
  | { readonly kind: 'unknown' }
  /** The draft's times, or those of the draft that it gives, are proved. */
  | { readonly kind: 'proved'; readonly report: DraftReport; readonly pairs: number; readonly possible: number }
  /** Lines begin where frames do, other ones than the draft takes for beginnings. */
  | { readonly kind: 'other-lines'; readonly pairs: number; readonly possible: number }
  | { readonly kind: 'contradicted'; readonly pairs: number; readonly possible: number };

/** The instants of frames, UTC ms, sorted. */
interface FrameInstants {
  readonly starts: readonly number[];
  readonly ends: readonly number[];
  readonly lengthsMs: readonly number[];
}

/** The draft's clock as the frames of the session prove it, by the draft's own reading or by another of the stamps. */
export function clockOfFrames(
  sample: LogSample,
  report: DraftReport,
  frames: readonly FrameTimes[],
  night: NightOfFrames,
): ClockVerdict {
  if (report.stamp === null || frames.length < LEAST) return { kind: 'unknown' };
  const instants = instantsOf(frames);
  const own = tested(report, readBeside(sample, report, night), instants, night);
  if (isSure(own)) return own.verdict;
  let best = own;
  for (const variant of timeVariants(report)) {
    const found = tested(variant, readBeside(sample, variant, night), instants, night);
    if (found.worth > best.worth) best = found;
    if (isSure(best)) break;
  }
  return best.verdict.kind === 'contradicted'
    ? ofOtherLines(sample, report, instants, night, best.verdict)
    : best.verdict;
}

/** Whether lines begin with the frames all the same, other ones than those that are taken for beginnings. */
function ofOtherLines(
  sample: LogSample,
  report: DraftReport,
  { starts }: FrameInstants,
  night: NightOfFrames,
  verdict: ClockVerdict & { readonly kind: 'contradicted' },
): ClockVerdict {
  const { lines } = readBeside(sample, report, night, true);
  const isOfOthers = fitAt(lines, starts, 0, NEAR_MS).pairs >= PROVED * starts.length;
  return isOfOthers ? { ...verdict, kind: 'other-lines' } : verdict;
}

/** A reading of the stamps, and how well the frames prove it: the pairs, less for each thing that had to be assumed. */
interface Tested {
  readonly verdict: ClockVerdict;
  readonly worth: number;
  readonly isAssumed: boolean;
}

/** A clock that was off is assumed only if no other reading explains as much. */
function isSure({ verdict, isAssumed }: Tested): boolean {
  return verdict.kind === 'proved' && !isAssumed && verdict.pairs >= PROVED * verdict.possible;
}

const ASSUMED = 0.9;

function tested(report: DraftReport, read: ReadInstants, frames: FrameInstants, night: NightOfFrames): Tested {
  const isByBegins = read.begins.length >= Math.min(LEAST, read.ends.length);
  const times = isByBegins ? read.begins : read.ends;
  const starts = isByBegins ? frames.starts : frames.ends;
  const possible = Math.min(times.length, starts.length);
  if (possible < LEAST) return { verdict: { kind: 'unknown' }, worth: 0, isAssumed: false };
  const nearMs = NEAR_MS + (isOfMinutes(report) ? MINUTE_MS : 0);
  const still = fitAt(times, starts, 0, nearMs);
  const [best] = bestFits(times, starts, nearMs);
  const isBased = report.sections.some((one) => 'from' in one && one.from === SOME_BASE);
  const stands = !isBased && still.pairs >= SOME * possible;
  if (stands && !(best !== undefined && best.pairs > MORE * still.pairs))
    return {
      verdict:
        still.pairs >= PROVED * possible
          ? { kind: 'proved', report, pairs: still.pairs, possible }
          : { kind: 'unknown' },
      worth: still.pairs / possible,
      isAssumed: false,
    };
  if (best !== undefined && best.pairs >= PROVED * possible) {
    const moved = movedBy(report, best, isBased, frames, read, night);
    if (moved !== null) {
      const isAssumed = !isBased && moved.clockBy === 'frames';
      return {
        verdict: { kind: 'proved', report: moved, pairs: best.pairs, possible },
        worth: (best.pairs / possible) * (isAssumed ? ASSUMED : 1),
        isAssumed,
      };
    }
  }
  return {
    verdict: { kind: 'contradicted', pairs: still.pairs, possible },
    worth: 0,
    isAssumed: false,
  };
}

function isOfMinutes({ stamp }: DraftReport): boolean {
  return stamp !== null && /\{minute\}/.test(stamp.pattern) && !/\{second\}|\{fraction\}/.test(stamp.pattern);
}

/** The draft whose clock is put right by a shift; `null` if the shift is no clock's. */
function movedBy(
  report: DraftReport,
  { shiftMs, soonestMs }: Fit,
  isBased: boolean,
  { lengthsMs }: FrameInstants,
  { begins }: ReadInstants,
  { zone: siteZone }: NightOfFrames,
): DraftReport | null {
  if (isBased) {
    const baseMs = Date.parse(SOME_BASE) - soonestMs;
    const wholeMs = Math.round(baseMs / HOUR_MS) * HOUR_MS;
    const from = new Date(
      Math.abs(wholeMs - baseMs) < WHOLE_MS ? wholeMs : Math.round(baseMs / 100) * 100,
    ).toISOString();
    return { ...report, sections: [{ from }], clockBy: 'frames' };
  }
  const quarters = Math.round(shiftMs / QUARTER_MS);
  const hasZone = [report.stamp?.pattern ?? '', ...(report.stamp?.more ?? [])].some((one) =>
    /\{offset\}|\{epoch|\{julian|\{mjd\}(?!.*\{hour\})/.test(one),
  );
  if (quarters !== 0 && Math.abs(shiftMs - quarters * QUARTER_MS) < NEAR_MS && !hasZone) {
    const atMs = begins[0] ?? 0;
    const offsetOf = (name: string): number => aheadOfUtcMs(name === 'site' ? (siteZone ?? 'utc') : name, atMs);
    const offsetMs = offsetOf(report.zone) + quarters * QUARTER_MS;
    if (offsetMs <= EAST_MS && offsetMs >= WEST_MS) {
      const name = SITE_FIRST.find((one) => offsetOf(one) === offsetMs && (one === 'utc') === (offsetMs === 0));
      return { ...report, zone: name ?? offsetName(offsetMs), zoneBy: 'frames' };
    }
  }
  if (Math.abs(shiftMs) > LONGEST_MS) return null;
  if (lengthsMs.some((length) => Math.abs(Math.abs(shiftMs) - length) < LIKE_LENGTH_MS)) return null;
  return { ...report, ahead: Math.round(soonestMs / 100) / 10 + (report.ahead ?? 0), clockBy: 'frames' };
}

function instantsOf(frames: readonly FrameTimes[]): FrameInstants {
  const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
  return {
    starts: sorted(frames.map(({ beginMs }) => beginMs)),
    ends: sorted(frames.map(({ beginMs, seconds }) => beginMs + seconds * 1000)),
    lengthsMs: [...new Set(frames.map(({ seconds }) => seconds * 1000))],
  };
}
