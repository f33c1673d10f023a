/**
 * Headers written in local time by mistake, if the rig file says so (`headerTimeZone`) or the night in which the clocks
 * go back proves it: the standard requires UTC.
 */
import { DateTime } from 'luxon';
import type { TrainConfig } from '../config/index.js';
import { counted, groupBy, interval, isDated, numberedOrders, type Interval, type Warning } from '../model/index.js';
import type { TrainFrame } from './assign-trains.js';
import { overlapsOf, PROVING_PAIRS, ROUNDING_MS } from './self-overlap.js';

/**
 * Reads the headers' times of such trains as wall-clock times of the zone named, and of others as those of the site
 * where as they are written one camera exposes twice at once, and so read it never does.
 */
export function readHeadersInZone(
  frames: readonly TrainFrame[],
  trains: readonly TrainConfig[],
  siteZone?: string,
): { frames: TrainFrame[]; warnings: Warning[] } {
  const zones = new Map(
    trains.flatMap((t) => (t.headerTimeZone === undefined ? [] : [[t.id, t.headerTimeZone] as const])),
  );
  if (zones.size === 0 && siteZone === undefined) return { frames: [...frames], warnings: [] };
  const read = new Map<TrainFrame, TrainFrame>();
  const warnings: Warning[] = [];
  for (const [train, own] of groupBy(frames, (f) => f.train)) {
    const zone = zones.get(train);
    if (zone === undefined) {
      const proved = siteZone === undefined ? null : provedLocal(own, siteZone);
      if (proved === null || siteZone === undefined) continue;
      for (const { frame, taken } of proved) read.set(frame, taken);
      warnings.push(takenForLocal(train, proved, siteZone));
      continue;
    }
    const passes = own.flatMap((frame) => passesOf(frame, zone));
    for (const { frame, first } of passes) read.set(frame, first);
    const inFold = passes.filter(({ second }) => second !== null);
    const [example] = inFold;
    if (!example) continue;
    const later = laterPass(passes);
    for (const { frame, second } of later) if (second) read.set(frame, second);
    warnings.push(ambiguous(example.frame, inFold.length, later.length));
  }
  return { frames: frames.map((frame) => read.get(frame) ?? frame), warnings };
}

/** A frame at the instants that its local time may mean: two in the hour that comes twice. */
interface Passes {
  readonly frame: TrainFrame;
  readonly first: DatedFrame;
  readonly second: DatedFrame | null;
}

type DatedFrame = TrainFrame & { readonly exposure: Interval };

function passesOf(frame: TrainFrame, zone: string): Passes[] {
  if (!isDated(frame)) return [];
  const written = DateTime.fromMillis(frame.exposure.startMs, { zone: 'utc' });
  const [first, second] = written
    .setZone(zone, { keepLocalTime: true })
    .getPossibleOffsets()
    .map((one) => one.toMillis())
    .sort((a, b) => a - b)
    .map((atMs) => movedBy(frame, atMs - written.toMillis()));
  return first ? [{ frame, first, second: second ?? null }] : [];
}

interface Taken {
  readonly frame: TrainFrame;
  readonly taken: TrainFrame;
}

/** A train's frames as local times of the zone, where the hour that came twice proves that they are; else `null`. */
function provedLocal(own: readonly TrainFrame[], zone: string): Taken[] | null {
  if (overlapsOf(own).length < PROVING_PAIRS) return null;
  const passes = own.flatMap((frame) => passesOf(frame, zone));
  const later = new Set(laterPass(passes));
  if (later.size === 0) return null;
  return passes.map((pass) => ({
    frame: pass.frame,
    taken: later.has(pass) && pass.second ? pass.second : pass.first,
  }));
}

function takenForLocal(train: string, taken: readonly Taken[], zone: string): Warning {
  const file = taken[0]?.frame.file;
  return {
    code: 'header-local-time',
    message:
      `the headers of ${train} were taken for local times of ${zone}: as UTC, one camera would have exposed twice ` +
      'at once, and as local times the hour repeated when clocks change explains it, by the files’ numbers. ' +
      `Have the program write UTC in DATE-OBS, or set headerTimeZone: ${zone} for ${train} in the rig file`,
    ...(file === undefined ? {} : { source: { file, card: 'DATE-OBS' } }),
    count: taken.length,
  };
}

function movedBy(frame: DatedFrame, ms: number): DatedFrame {
  return { ...frame, exposure: interval(frame.exposure.startMs + ms, frame.exposure.endMs + ms) };
}

/**
 * The frames of the second passage: files are numbered in the order in which they were taken, and where a local time
 * begins before the file before it has ended, the hour has come again. None where numbers do not follow the time, or
 * where frames would overlap all the same.
 */
function laterPass(passes: readonly Passes[]): Passes[] {
  for (const orders of numberedOrders(passes, ({ frame }) => frame)) {
    const later = orders.every((order) => order !== null) ? laterIn(orders) : null;
    if (later === null) continue;
    const moved = new Set(later);
    const all = passes.map((pass) => (moved.has(pass) && pass.second ? pass.second : pass.first));
    if (overlapsOf(all).length === 0) return later;
  }
  return [];
}

/** The frames of the second pass by the orders in which files were numbered; `null` if one contradicts time. */
function laterIn(orders: readonly (readonly Passes[])[]): Passes[] | null {
  const later: Passes[] = [];
  for (const order of orders) {
    let endMs = -Infinity;
    for (const pass of order) {
      const { first, second } = pass;
      const isLater = second !== null && first.exposure.startMs < endMs - ROUNDING_MS;
      const taken = isLater ? second : first;
      if (taken.exposure.startMs < endMs - ROUNDING_MS) return null;
      if (isLater) later.push(pass);
      endMs = taken.exposure.endMs;
    }
  }
  return later;
}

function ambiguous(frame: TrainFrame, inFold: number, later: number): Warning {
  const one = inFold === 1;
  return {
    code: 'header-time-ambiguous',
    message:
      `${counted(inFold, 'header')} in local time ${one ? 'falls' : 'fall'} into the hour that the change of clocks ` +
      `repeats; ` +
      (later === 0
        ? 'the first passage was taken'
        : `by the files’ numbers ${later} of them ${later === 1 ? 'was' : 'were'} taken in the second passage`),
    source: { file: frame.file, card: 'DATE-OBS' },
    count: inFold,
  };
}
