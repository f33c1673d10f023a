/**
 * Unlabelled exposure times in milliseconds: as seconds one camera would have many shutters open simultaneously, and as
 * milliseconds it never has two.
 */
import {
  counted,
  groupByAll,
  interval,
  isDated,
  itemAt,
  median,
  type HeaderFrame,
  type Warning,
} from '../model/index.js';
import { KEYWORDS } from './fits/keywords.js';
import { cameraOf, type ZonedFrames } from './mixed-zones.js';
import { ROUNDING_MS } from './self-overlap.js';

/** No mount carries as many cameras (common practice): so many simultaneously open shutters mean another unit. */
const SHUTTERS_AT_ONCE = 20;
/** One pair may be a slip of one header. */
const LEAST_PAIRS = 2;
/** Of the pairs, those that must be free of overlaps as milliseconds: a copy or a second camera makes a few. */
const FREE_SHARE = 0.95;
/** Begins farther apart than this are no neighbours, ms. */
const NEIGHBOURS_MS = 6 * 3_600_000;
/** The reader's notes on implausibly long exposures, which are not once they are milliseconds. */
const SAID: ReadonlySet<string> = new Set(['absurd-value', 'missing-exposure-time']);

/** A frame and its length as stated in the header. */
interface Stated {
  readonly frame: HeaderFrame;
  readonly stated: number;
}

/** Takes lengths for milliseconds, camera by camera, where the times between the frames leave nothing else. */
export function withSeconds(frames: readonly HeaderFrame[]): ZonedFrames {
  const mended = new Map<HeaderFrame, HeaderFrame>();
  const warnings: Warning[] = [];
  const all = frames.flatMap((frame): Stated[] => {
    const stated = frame.exposureSeconds ?? frame.unlikelySeconds;
    return stated === undefined ? [] : [{ frame, stated }];
  });
  for (const own of groupByAll(all, ({ frame }) => cameraOf(frame))) {
    if (!areMilliseconds(own)) continue;
    for (const one of own) mended.set(one.frame, inSeconds(one));
    warnings.push(...own.slice(0, 1).map((first) => warning(own, first)));
  }
  return mended.size === 0 ? { frames, warnings } : { frames: frames.map((f) => mended.get(f) ?? f), warnings };
}

/** The reader's notes on headers, except those explained by these lengths. */
export function unexplainedWarnings(said: readonly Warning[], mended: readonly Warning[]): Warning[] {
  const explained = mended.reduce((all, { count = 1 }) => all + count, 0);
  const isLength = ({ code, source }: Warning): boolean =>
    SAID.has(code) &&
    source !== undefined &&
    'card' in source &&
    KEYWORDS.exposureSeconds.some((name) => name === source.card);
  return said.filter((one) => !isLength(one) || (one.count ?? 1) > explained);
}

function areMilliseconds(own: readonly Stated[]): boolean {
  const lights = own
    .flatMap(({ frame, stated }) =>
      frame.kind === 'light' && isDated(frame) ? [{ startMs: frame.exposure.startMs, stated }] : [],
    )
    .sort((a, b) => a.startMs - b.startMs);
  const pairs = lights.slice(1).flatMap((next, i) => {
    const { startMs, stated } = itemAt(lights, i);
    const gapMs = next.startMs - startMs;
    // Copies of one file begin at one time.
    return gapMs <= 0 || gapMs > NEIGHBOURS_MS ? [] : [{ gapMs, stated }];
  });
  if (pairs.length < LEAST_PAIRS) return false;
  const free = pairs.filter(({ gapMs, stated }) => stated - gapMs <= ROUNDING_MS);
  return (
    median(pairs.map(({ gapMs, stated }) => (stated * 1000) / gapMs)) >= SHUTTERS_AT_ONCE &&
    free.length >= FREE_SHARE * pairs.length
  );
}

function inSeconds({ frame, stated }: Stated): HeaderFrame {
  const timed = { ...frame, exposureSeconds: stated / 1000, unlikelySeconds: undefined };
  const startMs = frame.exposure?.startMs;
  return startMs === undefined ? timed : { ...timed, exposure: interval(startMs, startMs + Math.round(stated)) };
}

function warning(own: readonly Stated[], { frame: { file }, stated }: Stated): Warning {
  return {
    code: 'milliseconds',
    message:
      `the exposure times of ${counted(own.length, 'header')} (${file}${own.length === 1 ? '' : ', …'}) were ` +
      `taken for milliseconds, ${stated} for ${stated / 1000} s: as seconds the camera would have had ` +
      `${SHUTTERS_AT_ONCE} or more shutters open at once. Have the program that wrote them write seconds, or the ` +
      'unit in the comment: [ms]',
    source: { file },
    count: own.length,
  };
}
