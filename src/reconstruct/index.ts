/**
 * From headers and log lines to the night's timeline: one clock, trains told apart, exposures matched, mount and
 * guiding as lanes of labelled intervals.
 */
import {
  groupBy,
  interval,
  type Activity,
  type ClockNote,
  type CoolerReading,
  type Frame,
  type HeaderFrame,
  type Interval,
  type LogEvent,
  type Target,
  type Timeline,
  type Warning,
} from '../model/index.js';
import { alignLogs, CLOCK_TOLERANCE_MS, correctReferenceZone, isZoneLike } from './clocks.js';
import { headerOffset, trainFrames } from './frames.js';
import { inferFromGaps } from './gaps.js';
import { guidingActivities } from './guiding.js';
import { logExposures } from './log-exposures.js';
import { mountActivities } from './mount.js';
import { filterNamer, targetFinder } from './names.js';
import { nightTargets, targetAt } from './targets.js';
import { holdActivities, measuredReadouts, trainActivities } from './train-lanes.js';

export { fold } from './names.js';

/** One night's share of what was gathered. */
export interface TimelineInput {
  readonly night: Interval;
  /** Train ids; the first is the pilot. */
  readonly trains: readonly string[];
  readonly headers: readonly (HeaderFrame & { readonly train: string })[];
  /** Calibration frames of other dates. */
  readonly library: readonly (HeaderFrame & { readonly train: string })[];
  readonly events: readonly LogEvent[];
  readonly targets: readonly Target[];
  readonly filterAliases: Readonly<Record<string, string>>;
}

/** Rebuilds the timeline of one night. */
export function reconstruct(input: TimelineInput): Timeline {
  const pilot = input.trains[0] ?? '';
  const headersByTrain = groupBy(input.headers, (h) => h.train);
  const headerOffsets = new Map(
    input.trains.flatMap((train) => {
      const own = input.events.filter((e) => e.train === train).sort((a, b) => a.atMs - b.atMs);
      const offset = headerOffset(headersByTrain.get(train) ?? [], logExposures(own).exposures);
      return offset ? [[train, offset] as const] : [];
    }),
  );
  const zoned = correctReferenceZone(input.events, pilot, headerOffsets);
  const aligned = alignLogs(zoned.events, pilot);
  const events = aligned.events.sort((a, b) => a.atMs - b.atMs);
  const untilMs = Math.min(input.night.endMs, Math.max(events.at(-1)?.atMs ?? 0, input.night.startMs));
  const targets = nightTargets(input.targets, input.headers);
  const find = targetFinder(targets);
  const naming = {
    filter: filterNamer(input.filterAliases),
    target: (raw: string) => find(raw)?.name ?? raw.trim(),
  };

  const warnings: Warning[] = [];
  const clocks: ClockNote[] = [...(zoned.note ? [zoned.note] : []), ...aligned.notes];
  const frames: Frame[] = [];
  const ownActivities: Activity[] = [];
  const ditherBegins = events.filter((e) => e.event === 'dither-begin' && (e.train ?? pilot) === pilot);
  const eventsByTrain = groupBy(events, (e) => e.train ?? '');

  for (const train of input.trains) {
    const own = eventsByTrain.get(train) ?? [];
    const logged = logExposures(own);
    const headers = (headersByTrain.get(train) ?? []).map((h) =>
      shifted(named(h, targets), aligned.shiftsMs.get(train)),
    );
    const built = trainFrames(train, headers, logged.exposures, naming);
    const lanes = trainActivities(train, own, ditherBegins, untilMs);
    const holds = holdActivities(own, train === pilot ? undefined : train, untilMs);
    frames.push(...built.frames);
    ownActivities.push(...lanes.activities, ...holds.activities);
    warnings.push(...logged.warnings, ...built.warnings, ...lanes.warnings, ...holds.warnings);
    if (built.clock) clocks.push(built.clock);
  }
  const shared = holdActivities(eventsByTrain.get('') ?? [], undefined, untilMs);
  const mount = mountActivities(events, pilot, untilMs);
  const focusRuns = ownActivities.filter((a) => a.kind === 'focus');
  const guiding = guidingActivities(events, focusRuns, input.night);
  const readouts = measuredReadouts(frames);
  const inferred = inferFromGaps(
    input.trains.map((id) => ({
      id,
      frames: frames.filter((f) => f.train === id),
      logged: (eventsByTrain.get(id) ?? []).some((e) => e.event !== 'note' && e.event !== 'cooler'),
    })),
    mount.activities.length > 0,
  );
  warnings.push(...shared.warnings, ...mount.warnings, ...clocks.filter(isWorthTelling).map(clockWarning));

  const imaged = new Set(frames.flatMap((f) => (f.kind === 'light' ? [f.target] : [])));
  return {
    frames: frames.sort((a, b) => a.exposure.startMs - b.exposure.startMs),
    library: libraryFrames(input.library, naming.filter),
    activities: [
      ...ownActivities,
      ...shared.activities,
      ...mount.activities,
      ...guiding,
      ...readouts,
      ...inferred,
    ].sort((a, b) => a.span.startMs - b.span.startMs),
    targets: targets.filter((t) => imaged.has(t.name)),
    coolers: coolerReadings(events),
    clocks,
    warnings,
    headersOnly: events.every((e) => e.event === 'note'),
  };
}

/** Calibration frames from other dates, for the night they calibrate: no place on its timeline, names like its own. */
function libraryFrames(
  headers: readonly (HeaderFrame & { readonly train: string })[],
  name: (filter: string) => string,
): Frame[] {
  return headers.map(
    (header): Frame => ({
      id: `library-${header.headerHash.slice(0, 16)}`,
      train: header.train,
      kind: header.kind,
      exposure: header.exposure ?? interval(0, Math.round((header.exposureSeconds ?? 0) * 1000)),
      filter: header.filter === undefined ? undefined : name(header.filter),
      provenance: 'file-only',
      file: header.file,
      header,
      sources: [{ file: header.file }],
    }),
  );
}

/** A light whose header names no target is given to the one at its place. */
function named<H extends HeaderFrame>(header: H, targets: readonly Target[]): H {
  if (header.target !== undefined || header.kind !== 'light') return header;
  const target = targetAt(targets, header);
  return target ? { ...header, target: target.name } : header;
}

/** A header on the night's clock: the computer that wrote it was ahead by `shiftMs`. */
function shifted<H extends HeaderFrame>(header: H, shiftMs: number | undefined): H {
  if (shiftMs === undefined || !header.exposure) return header;
  const { startMs, endMs } = header.exposure;
  return { ...header, exposure: interval(startMs - shiftMs, endMs - shiftMs) };
}

function coolerReadings(events: readonly LogEvent[]): CoolerReading[] {
  return events.flatMap((e): CoolerReading[] =>
    e.event === 'cooler' && e.train !== undefined
      ? [{ atMs: e.atMs, train: e.train, setpointC: e.setpoint, temperatureC: e.temperature, source: e.source }]
      : [],
  );
}

function clockWarning(note: ClockNote): Warning {
  const seconds = (ms: number) => (Math.abs(ms) / 1000).toFixed(1);
  const ahead = note.offsetMs > 0 ? 'ahead of' : 'behind';
  const what = note.against === 'its own log' ? `The headers of ${note.train} are` : `The log of ${note.train} is`;
  const ofHeaders = note.against === 'its own log';
  const action = note.corrected
    ? 'its times were shifted by that'
    : ofHeaders && isZoneLike(note.offsetMs)
      ? `that is a time zone's offset: if the headers are in local time, set headerTimeZone: for ${note.train} in the rig file; if the log is, check its dialect's zone. Frames were placed by the log's clock`
      : ofHeaders
        ? "frames were placed by the log's clock; set both computers' clocks by a time server"
        : 'times were left as they are';
  return {
    code: 'clock-offset',
    message: `${what} ${seconds(note.offsetMs)} s ${ahead} ${note.against} (± ${seconds(note.uncertaintyMs)} s from ${note.pairs} pairs); ${action}`,
  };
}

/** Clocks that agree to within the programs' own delays are noted in the report, not warned of. */
function isWorthTelling(note: ClockNote): boolean {
  return note.corrected || Math.abs(note.offsetMs) > CLOCK_TOLERANCE_MS;
}
