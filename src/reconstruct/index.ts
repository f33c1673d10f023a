/**
 * From headers and log lines to the night's timeline: one clock, trains distinguished, exposures matched, mount and
 * guiding as lanes of labelled intervals.
 */
import {
  groupBy,
  sortedBy,
  interval,
  type Activity,
  type ClockNote,
  append,
  MOST_FILTERS,
  MOST_TARGETS,
  type CoolerReading,
  type Frame,
  type HeaderFrame,
  type Interval,
  type LineTimes,
  type LogEvent,
  type TellingEvent,
  type Target,
  type Timeline,
  type Warning,
} from '../model/index.js';
import { cameraTurnWarnings } from './camera-turns.js';
import { clockWarnings } from './clocks/warnings.js';
import { filtersApart } from './filters-apart.js';
import { filtersNumbered } from './filters-numbered.js';
import { targetsApart } from './targets-apart.js';
import { unseenDithers } from './unseen-dithers.js';
import { trainFrames } from './frames.js';
import { inferFromGaps } from './gaps.js';
import { guidingActivities } from './guiding.js';
import { endOfLog, logExposures } from './log-exposures.js';
import { mountActivities } from './mount.js';
import { fewNames, filterNamer, targetNamer } from './names.js';
import { nightTargets, targetAt } from './targets.js';
import { holdActivities, measuredReadouts, trainActivities } from './train-lanes.js';

export { compareClocks } from './clocks/index.js';
export { joinTimelines, type JoinedTimeline } from './join.js';

/** One night's share of what was gathered. */
export interface TimelineInput {
  readonly night: Interval;
  /** Train ids; the first is the pilot. */
  readonly trains: readonly string[];
  readonly headers: readonly (HeaderFrame & { readonly train: string })[];
  /** Calibration frames of other dates. */
  readonly library: readonly (HeaderFrame & { readonly train: string })[];
  readonly events: readonly TellingEvent[];
  /** When the logs' lines were written, notes among them. */
  readonly lineTimes: readonly LineTimes[];
  readonly targets: readonly Target[];
  readonly filterAliases: Readonly<Record<string, string>>;
  /** What is known about the clocks that wrote all this; headers and events have already been converted to one. */
  readonly clocks: readonly ClockNote[];
}

/** Warnings if there are more distinct names than any night has. */
function crowdedNames(what: string, leftOver: number, most: number): Warning[] {
  if (leftOver === 0) return [];
  const message =
    `the night names more than ${most} ${what}; ${leftOver} of them are listed under "further ${what}". Look for ` +
    'what writes another name into every frame';
  return [{ code: 'too-many-names', message, count: leftOver }];
}

/** Begins of lights, sorted, UTC ms. */
function lightBegins(frames: readonly Frame[]): number[] {
  return frames.flatMap(({ kind, exposure }) => (kind === 'light' ? [exposure.startMs] : [])).sort((a, b) => a - b);
}

/** Rebuilds the timeline of one night. */
export function reconstruct(input: TimelineInput): Timeline {
  const [pilot] = input.trains;
  const headersByTrain = groupBy(input.headers, (h) => h.train);
  const { clocks } = input;
  const untilMs = Math.min(
    input.night.endMs,
    Math.max(endOfLog(input.lineTimes) ?? input.night.startMs, input.night.startMs),
  );
  const targets = nightTargets(input.targets, input.headers);
  const filterNames = fewNames(filterNamer(input.filterAliases), MOST_FILTERS, 'further filters');
  const targetNames = fewNames(targetNamer(targets), MOST_TARGETS, 'further targets');
  const naming = { filter: filterNames.nameOf, target: targetNames.nameOf };

  const warnings: Warning[] = [];
  const frames: Frame[] = [];
  const ownActivities: Activity[] = [];
  const events = sortedBy(input.events, (e) => e.atMs);
  const eventsByTrain = groupBy(events, (e) => e.train);
  const ditherBegins = events.filter((e) => e.event === 'dither-begin' && (e.train ?? pilot) === pilot);
  const timesByTrain = groupBy(input.lineTimes, (own) => own.train);
  // What a log leaves open ended with that log at the latest: others may go on for hours.
  const ownEndMs = (train: string | undefined): number =>
    Math.min(untilMs, Math.max(endOfLog(timesByTrain.get(train) ?? []) ?? untilMs, input.night.startMs));

  for (const train of input.trains) {
    const own = eventsByTrain.get(train) ?? [];
    const logged = logExposures(own, endOfLog(timesByTrain.get(train) ?? []));
    const headers = (headersByTrain.get(train) ?? []).map((h) => named(h, targets));
    const built = trainFrames(train, headers, logged.exposures, naming);
    const lanes = trainActivities(train, own, ditherBegins, ownEndMs(train));
    const holds = holdActivities(own, train === pilot ? undefined : train, untilMs, lightBegins(built.frames));
    append(frames, built.frames);
    for (const made of [lanes, holds]) append(ownActivities, made.activities);
    for (const made of [logged, built, lanes, holds]) append(warnings, made.warnings);
  }
  const pilotLights = lightBegins(frames.filter(({ train }) => train === pilot));
  const shared = holdActivities(eventsByTrain.get(undefined) ?? [], undefined, untilMs, pilotLights);
  const mount = mountActivities(events, pilot, ownEndMs);
  const focusRuns = ownActivities.filter((a) => a.kind === 'focus');
  const guiding = guidingActivities(events, focusRuns, input.night);
  const readouts = measuredReadouts(frames);
  const inferred = inferFromGaps(
    input.trains.map((id) => ({
      id,
      frames: frames.filter((f) => f.train === id),
      logged: (eventsByTrain.get(id) ?? []).some((e) => e.event !== 'cooler'),
    })),
    mount.activities.length > 0,
  );
  const library = libraryFrames(input.library, naming.filter);
  for (const made of [library, shared, mount]) append(warnings, made.warnings);
  append(warnings, clockWarnings(clocks));
  append(warnings, cameraTurnWarnings(frames));
  if (events.length === 0) append(warnings, unseenDithers(frames, inferred));
  append(warnings, filtersApart(frames));
  append(warnings, filtersNumbered(frames));
  append(warnings, targetsApart(frames, targets));
  append(warnings, crowdedNames('targets', targetNames.leftOver(), MOST_TARGETS));
  append(warnings, crowdedNames('filters', filterNames.leftOver(), MOST_FILTERS));

  const imaged = new Set(frames.flatMap((f) => (f.kind === 'light' ? [f.target] : [])));
  return {
    frames: frames.sort((a, b) => a.exposure.startMs - b.exposure.startMs),
    library: library.frames,
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
    headersOnly: events.length === 0,
  };
}

/**
 * Calibration frames from other dates, for the night they calibrate: not on its timeline, but with consistent names.
 */
function libraryFrames(
  headers: readonly (HeaderFrame & { readonly train: string })[],
  name: (filter: string) => string,
): { frames: Frame[]; warnings: Warning[] } {
  const lengthMs = (header: HeaderFrame): number | undefined =>
    // A bias has no length to state.
    header.exposureSeconds === undefined
      ? header.kind === 'bias'
        ? 0
        : undefined
      : Math.round(header.exposureSeconds * 1000);
  const unmeasured = headers.filter((h) => h.exposure === undefined && lengthMs(h) === undefined);
  const frames = headers.flatMap((header): Frame[] => {
    const ownMs = lengthMs(header);
    // Without a date only its length counts: it is on no timeline.
    const exposure = header.exposure ?? (ownMs === undefined ? undefined : interval(0, ownMs));
    if (!exposure) return [];
    return [
      {
        id: `library-${header.headerHash.slice(0, 16)}`,
        train: header.train,
        kind: header.kind,
        exposure,
        filter: header.filter === undefined ? undefined : name(header.filter),
        provenance: 'file-only',
        file: header.file,
        header,
        sources: [{ file: header.file }],
      },
    ];
  });
  const warnings = unmeasured.map(
    ({ file }): Warning => ({
      code: 'frame-without-length',
      message: `${file} states neither a date nor an exposure time: it calibrates nothing`,
      source: { file },
    }),
  );
  return { frames, warnings };
}

/** A light whose header names no target is assigned to the one at its position. */
function named<H extends HeaderFrame>(header: H, targets: readonly Target[]): H {
  if (header.target !== undefined || header.kind !== 'light') return header;
  const target = targetAt(targets, header);
  return target ? { ...header, target: target.name } : header;
}

function coolerReadings(events: readonly LogEvent[]): CoolerReading[] {
  return events.flatMap((e): CoolerReading[] =>
    e.event === 'cooler' && e.train !== undefined
      ? [{ atMs: e.atMs, train: e.train, setpointC: e.setpoint, temperatureC: e.temperature, source: e.source }]
      : [],
  );
}
