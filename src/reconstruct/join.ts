/**
 * Several sessions of one night as one timeline in which no frame counts twice. Inferences from the gaps between frames
 * are repeated for all of them.
 */
import {
  activityRow,
  distinctBy,
  groupBy,
  targetKey,
  type Activity,
  type Frame,
  type Target,
  type Timeline,
  type Warning,
} from '../model/index.js';
import { oneSided } from './frames.js';
import { inferFromGaps, isFromGaps } from './gaps.js';
import { joinFrames, type FrameIds, type SessionTimeline } from './join-frames.js';
import { isSameActivity } from './mount.js';
import { measuredReadouts } from './train-lanes.js';

/** The combined timeline of several. */
export interface JoinedTimeline {
  readonly timeline: Timeline;
  /** Trains that imaged, and the first session's. */
  readonly trains: readonly string[];
  /** Per session: its frames' ids in the joined timeline, by their ids in the session. */
  readonly ids: readonly FrameIds[];
}

/** About frames of one session only; for all together it is determined anew. */
const ONE_SIDED: readonly string[] = ['file-missing', 'log-missing'];

/**
 * Joins the timelines of one night. If two hold the same frame or activity, the first takes precedence.
 *
 * @param sessions the most trusted first
 * @param elsewhere frames that another night counts
 */
export function joinTimelines(sessions: readonly SessionTimeline[], elsewhere: readonly Frame[] = []): JoinedTimeline {
  const timelines = sessions.map(({ timeline }) => timeline);
  const targets = distinctBy([...timelines.flatMap((t) => t.targets)].sort(byOrigin), ({ name }) => targetKey(name));
  const names = new Map(
    targets.flatMap(({ name, aliases }) => [name, ...aliases].map((n) => [targetKey(n), name] as const)),
  );
  const { frames, ids } = joinFrames(sessions, elsewhere, (name) => names.get(targetKey(name)) ?? name);
  const trains = imaging(sessions, frames);
  const reported = withoutRepeats(timelines.flatMap(({ activities }) => activities.filter((a) => isLogged(a, trains))));
  const isMountLogged = reported.some(isOfMount);
  const tracks = trains.map((id) => {
    const own = frames.filter((f) => f.train === id);
    const logged = own.some((f) => f.provenance !== 'file-only') || reported.some((a) => isBy(a, id));
    return { id, frames: own, logged };
  });
  const imaged = new Set(frames.flatMap((f) => (f.kind === 'light' ? [f.target] : [])));
  return {
    timeline: {
      frames,
      library: distinctBy(
        timelines.flatMap((t) => t.library),
        (f) => f.id,
      ),
      activities: [...reported, ...measuredReadouts(frames), ...inferFromGaps(tracks, isMountLogged)].sort(
        (a, b) => a.span.startMs - b.span.startMs,
      ),
      targets: targets.filter(({ name }) => imaged.has(name)),
      coolers: distinctBy(
        timelines.flatMap((t) => t.coolers),
        ({ train, atMs }) => JSON.stringify([train, atMs]),
      ).sort((a, b) => a.atMs - b.atMs),
      clocks: distinctBy(
        timelines.flatMap((t) => t.clocks),
        ({ train, source }) => JSON.stringify([train, source]),
      ),
      headersOnly: timelines.every((t) => t.headersOnly),
      warnings: [...distinctBy(timelines.flatMap(warningsOfMany), textOf), ...tracks.flatMap(sidesOf)],
    },
    trains,
    ids,
  };
}

function imaging(sessions: readonly SessionTimeline[], frames: readonly Frame[]): string[] {
  const wanted = new Set([...(sessions[0]?.trains ?? []), ...frames.map((f) => f.train)]);
  return [...new Set(sessions.flatMap((s) => s.trains))].filter((id) => wanted.has(id));
}

/** Whether a log reports it, for an existing train. */
function isLogged(activity: Activity, trains: readonly string[]): boolean {
  if (isFromGaps(activity) || activity.kind === 'readout') return false;
  return activity.train === undefined || trains.includes(activity.train);
}

/** Two sessions may have read the same log. */
function withoutRepeats(activities: readonly Activity[]): Activity[] {
  return [...groupBy(activities, ({ kind, train }) => JSON.stringify([kind, train])).values()].flatMap((alike) => {
    const kept: Activity[] = [];
    for (const activity of alike) if (!kept.some((known) => isSameActivity(known, activity))) kept.push(activity);
    return kept;
  });
}

function isOfMount({ kind }: Activity): boolean {
  return activityRow(kind).lane === 'mount';
}

/** Whether it is the train's own, or its computer moved the mount. */
function isBy(activity: Activity, train: string): boolean {
  return activity.train === train || (isOfMount(activity) && activity.causedBy === train);
}

function sidesOf({ id, frames }: { readonly id: string; readonly frames: readonly Frame[] }): Warning[] {
  return frames.some((f) => f.provenance !== 'file-only') ? oneSided(id, frames) : [];
}

function warningsOfMany({ warnings }: Timeline): readonly Warning[] {
  return warnings.filter(({ code }) => !ONE_SIDED.includes(code));
}

function textOf({ code, message, source }: Warning): string {
  return JSON.stringify([code, message, source]);
}

/** A position in the rig file is better than one from headers. */
function byOrigin(a: Target, b: Target): number {
  return Number(b.origin === 'rig-file') - Number(a.origin === 'rig-file');
}
