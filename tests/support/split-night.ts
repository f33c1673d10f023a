/**
 * A night of the simulator, and any share of it as the record of a session of its own.
 */
import { DEFAULT_RULES, type Activity, type Frame, type GatheredNight, type Timeline } from '../../src/model/index.js';
import { STAGES } from '../../src/pipeline.js';
import { inferFromGaps, isFromGaps } from '../../src/reconstruct/gaps.js';
import { measuredReadouts } from '../../src/reconstruct/train-lanes.js';
import { forArchive, type SessionRecord } from '../../src/record/index.js';
import { nightSpan } from '../../src/sky/index.js';
import { follow } from '../../src/stages.js';
import { CIERZO_HILL, TARGETS } from './generator/scenarios.js';
import { rebuild, simulated } from './random-night.js';

/** What a session knows of a night. */
export interface NightTold {
  readonly gathered: GatheredNight;
  readonly timeline: Timeline;
}

const DATE = '2026-10-14';
const TRAINS = ['heron', 'wren'];

/** A night of two trains. */
export function wholeNight(seed: number, logs: boolean): NightTold {
  const timeline = rebuild(simulated(seed), TRAINS, {}, logs);
  const { name, raDeg, decDeg } = TARGETS.ngc281;
  return {
    gathered: {
      site: {
        name: CIERZO_HILL.name,
        latitudeDeg: CIERZO_HILL.latitude,
        longitudeDeg: CIERZO_HILL.longitude,
        elevationM: CIERZO_HILL.elevation,
        timezone: CIERZO_HILL.timezone,
        minimumAltitudeDeg: 25,
        horizon: [],
      },
      darkness: 'nautical',
      trains: TRAINS.map((id, i) => ({ id, role: i === 0 ? 'pilot' : 'companion', pixelScaleArcsec: 1.5 })),
      cameras: [],
      guideSource: { source: 'off-axis', train: 'heron' },
      goals: [],
      rules: DEFAULT_RULES,
      guiding: null,
      inputs: [],
      warnings: [],
    },
    timeline: { ...timeline, targets: [{ name, aliases: [], raDeg, decDeg, origin: 'rig-file' }] },
  };
}

/** The record of a session that knows a share of it; gaps between its own frames tell it what they can. */
export async function partOf(
  { gathered, timeline }: NightTold,
  session: string,
  isOwn: (item: Frame | Activity) => boolean,
): Promise<SessionRecord> {
  const frames = timeline.frames.filter(isOwn);
  const reported = timeline.activities.filter((a) => isOwn(a) && a.kind !== 'readout' && !isFromGaps(a));
  const tracks = TRAINS.map((id) => ({
    id,
    frames: frames.filter((f) => f.train === id),
    logged: !timeline.headersOnly,
  }));
  const isMountLogged = reported.some((a) => a.kind === 'dither-move');
  const activities = [...reported, ...measuredReadouts(frames), ...inferFromGaps(tracks, isMountLogged)].sort(
    (a, b) => a.span.startMs - b.span.startMs,
  );
  const night = await follow(STAGES, {
    date: DATE,
    span: nightSpan(DATE, CIERZO_HILL.timezone),
    gathered,
    timeline: { ...timeline, frames, activities },
    stars: null,
    pictures: null,
    replay: null,
    findings: { ranked: [], notAssessed: [] },
  });
  return forArchive(night, { session, report: null }, 'test');
}
