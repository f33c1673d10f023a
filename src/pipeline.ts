/**
 * The whole journey of a night, on one screen:
 * gather → reconstruct → sky → account → worth → replay → findings → record → report. The sky comes before the account, because the
 * window and two of the verdicts are the sky's.
 */
import { daylightWarnings, takeAccount } from './account/index.js';
import type { Rig } from './config/index.js';
import { findAll } from './findings/index.js';
import { gatherSession, type Gathered, type GatherOptions, type TrainFrame } from './gather/index.js';
import {
  contains,
  hasGoals,
  hull,
  interval,
  midpointMs,
  type Interval,
  type Night,
  type SkyPosition,
} from './model/index.js';
import {
  describeTrain,
  guideSource,
  libraryFrames,
  pilotFirst,
  reconstruct,
  samplesWithin,
} from './reconstruct/index.js';
import { replayNight } from './replay/index.js';
import {
  extinctionCoefficient,
  filterWavelengthNm,
  makeSkyObserver,
  moonBrightening,
  nightOf,
  nightSpan,
  nightZone,
  skyNight,
  targetCurve,
  zoneOffsetMs,
} from './sky/index.js';
import { assessWorth, type SkyModel } from './worth/index.js';

/**
 * Reads a session folder and rebuilds its nights, oldest first.
 *
 * @throws ConfigError when the rig file cannot be used; Error when the folder cannot be read
 */
export async function readNights(sessionFolder: string, options: GatherOptions): Promise<Night[]> {
  const gathered = await gatherSession(sessionFolder, options);
  return nightDates(gathered).map((date) => rebuildNight(gathered, date, { replay: true }));
}

/** Local dates of the evenings on which something was imaged or logged. */
function nightDates({ rig, frames, events }: Gathered): string[] {
  const zone = zoneOf(rig);
  const imaged = frames.flatMap((f) => (f.kind === 'light' && f.exposure ? [f.exposure.startMs] : []));
  const logged = events.flatMap((e) =>
    e.event === 'exposure-begin' || e.event === 'exposure-end' || e.event === 'hold-begin' ? [e.atMs] : [],
  );
  const dates = new Set<string>();
  let known: Interval | null = null;
  for (const atMs of [...imaged, ...logged]) {
    // Telling a date costs much more than looking whether the instant lies in the night just found.
    if (known && contains(known, atMs)) continue;
    const date = nightOf(atMs, zone);
    known = nightSpan(date, zone);
    dates.add(date);
  }
  return [...dates].sort();
}

/** Rebuilds one night from what was gathered; replayed under other rules only when asked for. */
export function rebuildNight(gathered: Gathered, date: string, { replay = false } = {}): Night {
  const { rig } = gathered;
  const span = nightSpan(date, zoneOf(rig));
  const isTonight = (atMs: number) => atMs >= span.startMs && atMs < span.endMs;
  const isTonightFrame = (f: TrainFrame) => f.exposure !== undefined && isTonight(f.exposure.startMs);
  const order = pilotFirst(rig.trains);

  const timeline = reconstruct({
    night: span,
    trains: order.map((t) => t.id),
    headers: gathered.frames.filter(isTonightFrame),
    events: gathered.events.filter((e) => isTonight(e.atMs)),
    targets: rig.targets,
    filterAliases: rig.filterAliases,
  });
  const trains = order.map((t) =>
    describeTrain(
      t,
      gathered.frames.filter((f) => f.train === t.id && f.kind === 'light'),
    ),
  );

  const activity = hull(timeline.frames.filter((f) => f.kind === 'light').map((f) => f.exposure));
  const observer = rig.site ? makeSkyObserver(rig.site) : null;
  const sky = observer ? skyNight(observer, span, rig.darkness, activity ?? undefined) : null;
  const window = sky?.window.span ?? activity ?? interval(span.startMs, span.startMs);
  const targets = new Map(timeline.targets.map((t) => [t.name, t]));
  const skies = new Map<string, SkyPosition>();
  for (const frame of timeline.frames) {
    const target = frame.kind === 'light' && frame.target !== undefined ? targets.get(frame.target) : undefined;
    if (target && observer) skies.set(frame.id, observer.position(target, midpointMs(frame.exposure)));
  }

  const guiding = gathered.guiding && samplesWithin(gathered.guiding, span);
  const accounts = takeAccount({
    window,
    trains,
    frames: timeline.frames,
    activities: timeline.activities,
    rules: rig.rules,
    darkness: rig.darkness,
    guiding,
    skies,
  });

  const imaged = new Set(accounts.lights.map((f) => f.target));
  const shown = timeline.targets.filter((t) => imaged.has(t.name));
  const mine = new Set(gathered.frames.filter((f) => f.kind !== 'light' || isTonightFrame(f)).map((f) => f.file));
  const daylight = observer
    ? daylightWarnings(accounts.lights, (ms) => observer.at(ms).sun.altitudeDeg, {
        name: zoneOf(rig),
        offsetMs: zoneOffsetMs(zoneOf(rig), window.startMs),
      })
    : [];
  const night: Night = {
    date,
    span,
    site: rig.site,
    trains,
    guideSource: guideSource(rig),
    targets: shown,
    goals: rig.targets.flatMap(({ name, aliases, raDeg, decDeg, goals }) =>
      hasGoals(goals) ? [{ name, aliases, raDeg, decDeg, goals }] : [],
    ),
    rules: rig.rules,
    sky,
    window,
    frames: accounts.lights,
    // Frames of other dates still calibrate this night; they take no place on its timeline.
    calibration: [
      ...accounts.calibration,
      ...libraryFrames(
        gathered.frames.filter((f) => f.kind !== 'light' && !isTonightFrame(f)),
        rig.filterAliases,
      ),
    ],
    activities: timeline.activities,
    dithers: accounts.dithers,
    ledgers: accounts.ledgers,
    totals: accounts.totals,
    curves: observer ? shown.map((t) => targetCurve(observer, t, curveSpan(window, activity), window)) : [],
    guiding,
    guidingOverall: accounts.guidingOverall,
    guidingByTarget: accounts.guidingByTarget,
    guidingDrifts: accounts.guidingDrifts,
    clocks: timeline.clocks,
    coolers: timeline.coolers,
    findings: [],
    notAssessed: [],
    warnings: [...gathered.warnings, ...timeline.warnings, ...daylight],
    inputs: gathered.inputs.filter((i) => i.role !== 'frame' || mine.has(i.file)),
    headersOnly: timeline.headersOnly,
  };
  const worth = assessWorth({
    ...night,
    elevationM: rig.site?.elevationM ?? null,
    darkSkyMagArcsec2: rig.darkSkyMagArcsec2,
    configs: rig.trains,
    model: SKY_MODEL,
  });
  const weighed: Night = { ...night, ...worth };
  const played: Night = replay ? { ...weighed, replay: replayNight(weighed) } : weighed;
  return { ...played, ...findAll(played) };
}

/** The clear sky as the worth of frames is told of it. */
const SKY_MODEL: SkyModel = {
  wavelengthNm: filterWavelengthNm,
  extinction: extinctionCoefficient,
  brightening: moonBrightening,
};

/** Curves reach over the window and over whatever was imaged outside of it. */
function curveSpan(window: Interval, activity: Interval | null): Interval {
  return activity ? (hull([window, activity]) ?? window) : window;
}

function zoneOf(rig: Rig): string {
  return nightZone(rig.site?.timezone, rig.site?.longitudeDeg);
}

export { RIG_FILES, starterRig } from './gather/index.js';
export { replayWith } from './replay/index.js';
export { writeReports, type ReportOptions } from './output.js';
