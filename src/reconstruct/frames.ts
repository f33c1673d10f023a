/**
 * Combines headers and log into frames. Nothing is dropped: a file without a log entry and a log entry without a file
 * are both frames, and both are reported.
 */
import {
  CLOCK_TOLERANCE_MS,
  durationMs,
  increment,
  interval,
  isDated,
  partition,
  partitionPoint,
  type DatedHeader,
  type Frame,
  type HeaderFrame,
  type Interval,
  type Source,
  type Warning,
} from '../model/index.js';
import { offsetOf, type ClockOffset } from './clocks/differences.js';
import { isEmpty, withoutLength } from './empty-exposures.js';
import type { LogExposure } from './log-exposures.js';
import { isBoth, pairByName, type FilePairing, type Pairing } from './pair-by-name.js';

/** Names and facts for a frame from outside its own header. */
export interface FrameNaming {
  filter(raw: string): string;
  target(raw: string): string;
}

/**
 * Builds one train's frames.
 *
 * @param headers this train's files; those without a date are reported and left out
 * @param exposures this train's log, on the night's clock
 */
export function trainFrames(
  train: string,
  headers: readonly HeaderFrame[],
  exposures: readonly LogExposure[],
  naming: FrameNaming,
): { frames: Frame[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  const { unique, duplicates } = withoutDuplicates(headers.filter(isDated));
  for (const [copy, original] of duplicates) {
    warnings.push({
      code: 'duplicate-frame',
      message: `${copy.file} is the same exposure as ${original.file} and is counted once; remove one of them`,
      source: { file: copy.file },
    });
  }
  const byName = pairByName(unique, exposures);
  const offset = offsetOfPairs(byName);
  const pairings = pairByTime(byName, offset?.offsetMs ?? 0);
  const isCounted = ({ header, log }: Pairing): boolean => log !== undefined || header?.exposureSeconds !== undefined;
  const [real, empty] = partition(pairings, (pairing) => !isEmpty(pairing));
  const [counted, unmeasured] = partition(real, isCounted);
  if (empty.length > 0) warnings.push(withoutLength(train, empty));
  for (const header of unmeasured.flatMap((p) => p.header ?? [])) {
    warnings.push({
      code: 'frame-without-length',
      message: `${header.file} states no usable exposure time, and no log gives one: it is not counted`,
      source: { file: header.file },
    });
  }
  const disagree = offset !== null && Math.abs(offset.offsetMs) > CLOCK_TOLERANCE_MS;
  const frames = counted.map((pairing) => toFrame(train, pairing, disagree, naming));
  if (exposures.length > 0) warnings.push(...oneSided(train, frames));
  return {
    frames: withUniqueIds(frames.sort((a, b) => a.exposure.startMs - b.exposure.startMs)),
    warnings,
  };
}

function offsetOfPairs(pairings: readonly Pairing[]): ClockOffset | null {
  return offsetOf(pairings.filter(isBoth).map(({ header, log }) => header.exposure.startMs - log.beginMs));
}

/** Copies of one exposure: the same header, or the same start and length, in two files. */
function withoutDuplicates(headers: readonly DatedHeader[]): {
  unique: DatedHeader[];
  duplicates: [copy: DatedHeader, original: DatedHeader][];
} {
  const unique: DatedHeader[] = [];
  const duplicates: [DatedHeader, DatedHeader][] = [];
  const seen = new Map<string, DatedHeader>();
  // Of a truncated and a complete copy the complete one is the frame.
  const [whole, cutOff] = partition(headers, ({ isCutOff }) => isCutOff !== true);
  for (const header of [...whole, ...cutOff]) {
    const keys = [header.headerHash, `${header.exposure.startMs}/${header.exposureSeconds}/${header.kind}`];
    const original = keys.map((k) => seen.get(k)).find((h) => h !== undefined);
    if (original) duplicates.push([header, original]);
    else {
      unique.push(header);
      for (const key of keys) seen.set(key, header);
    }
  }
  return { unique, duplicates };
}

/**
 * Pairs what file names left unpaired by start time, once the clock offset is known; log and file must have similar
 * lengths.
 */
function pairByTime(pairings: readonly Pairing[], offsetMs: number): Pairing[] {
  const [withFile, logOnly] = partition(pairings, (p): p is FilePairing => p.header !== undefined);
  const [paired, files] = partition(withFile, (p) => p.log !== undefined);
  files.sort((a, b) => a.header.exposure.startMs - b.header.exposure.startMs);
  const logs = logOnly.map(({ log }) => log).sort((a, b) => a.beginMs - b.beginMs);
  const taken = new Set<LogExposure>();
  let low = 0;
  const byTime = files.map(({ header }): FilePairing => {
    const atMs = header.exposure.startMs - offsetMs;
    const lengthMs = header.exposureSeconds === undefined ? undefined : header.exposureSeconds * 1000;
    const toleranceMs = lengthMs === undefined ? 3000 : Math.min(10_000, Math.max(3000, lengthMs * 0.1));
    while ((logs[low]?.beginMs ?? Infinity) < atMs - toleranceMs) low++;
    let best: LogExposure | undefined;
    for (const log of logs.slice(
      low,
      partitionPoint(logs, ({ beginMs }) => beginMs > atMs + toleranceMs),
    )) {
      if (taken.has(log) || !alikeInLength(log, lengthMs)) continue;
      if (!best || Math.abs(log.beginMs - atMs) < Math.abs(best.beginMs - atMs)) best = log;
    }
    if (best) taken.add(best);
    return { header, log: best };
  });
  return [...paired, ...byTime, ...logs.filter((log) => !taken.has(log)).map((log) => ({ log }))];
}

/** A file without a stated length is matched by its start only. */
function alikeInLength(log: LogExposure, lengthMs: number | undefined): boolean {
  if (lengthMs === undefined) return true;
  const logMs = log.aborted ? lengthMs : (log.askedMs ?? log.endMs - log.beginMs);
  return Math.abs(logMs - lengthMs) <= Math.max(2000, 0.2 * Math.max(logMs, lengthMs));
}

/** A frame's id: its train and its begin. */
export function frameId(train: string, startMs: number): string {
  return `${train}-${new Date(startMs).toISOString().replace(/[-:.Z]/g, '')}`;
}

function toFrame(train: string, pairing: Pairing, clocksDisagree: boolean, naming: FrameNaming): Frame {
  const { header, log } = pairing;
  const exposure = exposureOf(pairing, clocksDisagree);
  const target = header?.target ?? log?.target;
  const filter = header?.filter ?? log?.filter;
  const stamped: Source[] = header ? [{ file: header.file, card: 'DATE-OBS' }] : [];
  // Lists that are grown by spreading get room for seventeen more.
  const sources = log === undefined ? stamped : stamped.concat(log.sources);
  return {
    id: frameId(train, exposure.startMs),
    train,
    kind: header?.kind ?? 'light',
    exposure,
    askedMs: log?.askedMs,
    target: target === undefined ? undefined : naming.target(target),
    filter: filter === undefined ? undefined : naming.filter(filter),
    provenance: header ? (log ? 'log-and-file' : 'file-only') : 'log-only',
    file: header?.file,
    header,
    savedMs: log?.savedMs,
    // A file that is there was written, whatever the log says.
    aborted: log?.aborted || (!header && log?.notSaved) || undefined,
    abortWhy: log?.abortWhy,
    sources,
  };
}

/**
 * The open shutter. The header's start and length take precedence, because the camera's program writes them as it
 * exposes; if the two clocks disagree the log's begin does, since mount and guiding are judged on the log's clock.
 */
function exposureOf({ header, log }: Pairing, clocksDisagree: boolean): Interval {
  if (header === undefined) return interval(log.beginMs, log.endMs);
  if (log === undefined) return header.exposure;
  if (header.exposureSeconds === undefined) return interval(log.beginMs, log.endMs);
  const { startMs } = header.exposure;
  const byLog = clocksDisagree || Math.abs(startMs - log.beginMs) > CLOCK_TOLERANCE_MS;
  const beginMs = byLog ? log.beginMs : startMs;
  return interval(beginMs, beginMs + durationMs(header.exposure));
}

/** Warnings about a train's frames that only its log or only the disk knows. */
export function oneSided(train: string, frames: readonly Frame[]): Warning[] {
  const warnings: Warning[] = [];
  // An aborted exposure naturally leaves no file; a calibration frame taken by hand leaves no log.
  const noFile = frames.filter((f) => f.provenance === 'log-only' && !f.aborted);
  const noLog = frames.filter((f) => f.provenance === 'file-only' && f.kind === 'light');
  const first = noFile[0];
  if (first) {
    warnings.push({
      code: 'file-missing',
      message:
        `${train}: ${noFile.length} exposure${noFile.length === 1 ? ' is' : 's are'} in the log ` +
        'without a file in the session folder; they are counted from the log. Copy the files here, or ' +
        'check the frames: globs',
      source: first.sources[0],
      count: noFile.length,
    });
  }
  if (noLog[0]) {
    warnings.push({
      code: 'log-missing',
      message:
        `${train}: ${noLog.length} frame${noLog.length === 1 ? ' is' : 's are'} on disk without a log ` +
        `entry (${noLog[0].file}${noLog.length > 1 ? ', …' : ''}); they are counted from their headers`,
      source: noLog[0].sources[0],
      count: noLog.length,
    });
  }
  return warnings;
}

/** Ids that distinguish a train's frames with the same begin. */
export function withUniqueIds(frames: readonly Frame[]): Frame[] {
  const used = new Map<string, number>();
  return frames.map((frame) => {
    const n = increment(used, frame.id);
    return n === 1 ? frame : { ...frame, id: `${frame.id}-${n}` };
  });
}
