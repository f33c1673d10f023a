/**
 * A session: all data read for one or several nights, combined regardless of whether it came from a folder with logs or
 * from headers only.
 */
import type { Rig } from '../config/index.js';
import { designationOfPath, isDatedLight, MOST_EVENTS, MOST_FRAMES } from '../model/index.js';
import type {
  ClockNote,
  GuidingSeries,
  HeaderFrame,
  InputFile,
  Interval,
  LineTimes,
  TellingEvent,
  Warning,
} from '../model/index.js';
import { assignTrains, type TrainFrame } from './assign-trains.js';
import { readHeadersInZone } from './header-zone.js';
import { eventsNearFrames, samplesNearFrames } from './log-dates.js';
import { nightCut } from './night-cut.js';
import { overlapWarnings } from './self-overlap.js';

/** What logs gave. */
export interface SessionLogs {
  readonly events: readonly TellingEvent[];
  readonly lineTimes: readonly LineTimes[];
  readonly guiding: GuidingSeries | null;
  readonly inputs: readonly InputFile[];
  readonly warnings: readonly Warning[];
}

/** All that was read. */
export interface Session {
  readonly rig: Rig;
  readonly frames: readonly TrainFrame[];
  readonly events: readonly TellingEvent[];
  readonly lineTimes: readonly LineTimes[];
  readonly guiding: GuidingSeries | null;
  readonly inputs: readonly InputFile[];
  readonly warnings: readonly Warning[];
  /** The zone whose noon splits the nights, if the site does not determine it; `UTC±h`. */
  readonly cutZone?: string;
  /** What is known about the clocks, once all times are converted to one. */
  readonly clocks?: readonly ClockNote[];
}

/** Frames given to trains, in UTC. */
export interface PlacedFrames {
  readonly frames: readonly TrainFrame[];
  readonly inputs: readonly InputFile[];
  readonly warnings: readonly Warning[];
}

const NO_LOGS: SessionLogs = { events: [], lineTimes: [], guiding: null, inputs: [], warnings: [] };

/**
 * Gives headers to the rig's trains and reads their times in each train's zone.
 *
 * @throws ConfigError when two trains claim one frame
 */
export function placeFrames(headers: readonly HeaderFrame[], { trains, site }: Rig): PlacedFrames {
  const assigned = assignTrains(headers, trains);
  const placed = readHeadersInZone(assigned.frames, trains, site?.timezone);
  return {
    frames: placed.frames.map(named),
    inputs: assigned.frames.map(toInput),
    warnings: [...assigned.warnings, ...placed.warnings, ...overlapWarnings(placed.frames)],
  };
}

/** A light whose header names no target is assigned what its file or folders name. */
export function named<F extends HeaderFrame>(frame: F): F {
  if (frame.kind !== 'light' || frame.target !== undefined) return frame;
  const found = designationOfPath(frame.file);
  return found ? { ...frame, target: found.name } : frame;
}

/** Puts a session together. */
export function sessionOf(rig: Rig, placed: PlacedFrames, logs: SessionLogs = NO_LOGS): Session {
  const dated = placed.frames.flatMap((f) => (f.exposure ? [f.exposure.startMs] : []));
  const near = eventsNearFrames(logs.events, dated);
  const guiding = logs.guiding ? samplesNearFrames(logs.guiding, dated) : { series: null, warnings: [] };
  const { lineTimes } = logs;
  const session = { rig, frames: placed.frames, events: near.events, lineTimes, guiding: guiding.series };
  const cut = nightCut(
    rig.site,
    activeInstants(session),
    placed.frames.filter((f) => f.kind === 'light'),
  );
  return {
    ...session,
    ...(cut ? { cutZone: cut.zone } : {}),
    inputs: [...logs.inputs, ...placed.inputs],
    warnings: [
      ...placed.warnings,
      ...logs.warnings,
      ...near.warnings,
      ...guiding.warnings,
      ...(cut ? [cut.warning] : []),
    ],
  };
}

function toInput(frame: TrainFrame): InputFile {
  return { file: frame.file, role: 'frame', train: frame.train, sizeBytes: frame.sizeBytes, sha256: frame.headerHash };
}

/** What a session holds of one night. */
export interface Evening {
  /** Frames of any kind whose exposure began in the night. */
  readonly headers: readonly TrainFrame[];
  /** Calibration frames of other dates. */
  readonly library: readonly TrainFrame[];
  readonly events: readonly TellingEvent[];
  readonly lineTimes: readonly LineTimes[];
}

/** A session's share of the night between two noons. */
export function eveningOf({ frames, events, lineTimes }: Session, span: Interval): Evening {
  const isTonight = (atMs: number): boolean => atMs >= span.startMs && atMs < span.endMs;
  const isTonightFrame = ({ exposure }: TrainFrame): boolean => exposure !== undefined && isTonight(exposure.startMs);
  return {
    headers: firstOf(MOST_FRAMES, frames, isTonightFrame),
    library: firstOf(MOST_FRAMES, frames, (f) => f.kind !== 'light' && !isTonightFrame(f)),
    events: firstOf(MOST_EVENTS, events, (e) => isTonight(e.atMs)),
    lineTimes: lineTimes.map((own) => ({ ...own, atMs: own.atMs.filter(isTonight) })),
  };
}

/** Limited to what a night can hold: anything beyond is made up, and would overload every stage. */
function firstOf<T>(most: number, all: readonly T[], isOne: (one: T) => boolean): T[] {
  const found: T[] = [];
  for (const one of all) {
    if (found.length === most) break;
    if (isOne(one)) found.push(one);
  }
  return found;
}

/** Notices about a truncated evening. */
export function crowdWarnings({ headers, events }: Evening): Warning[] {
  const crowds = [
    [headers, MOST_FRAMES, 'frames'],
    [events, MOST_EVENTS, 'events of logs'],
  ] as const;
  return crowds.flatMap(([{ length }, most, what]) =>
    length < most
      ? []
      : [
          {
            code: 'too-many',
            message:
              `one night holds ${most} ${what} or more; the first ${most} were read. No night has that many: look ` +
              'for times that are misread, or for what else writes into these files',
          },
        ],
  );
}

/** Instants of imaging: lights with a date, and exposures and holds in logs. UTC ms. */
export function activeInstants({ frames, events }: Pick<Session, 'frames' | 'events'>): number[] {
  const imaged = frames.filter(isDatedLight).map((f) => f.exposure.startMs);
  const logged = events.flatMap((e) =>
    e.event === 'exposure-begin' || e.event === 'exposure-end' || e.event === 'hold-begin' ? [e.atMs] : [],
  );
  return [...imaged, ...logged];
}
