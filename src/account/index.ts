/**
 * Verdicts, dither cycles, ledgers and totals of one night.
 */
import {
  durationMs,
  EXCURSION_KINDS,
  groupBy,
  sum,
  totalIntegration,
  union,
  UNNAMED,
  type Accounts,
  type Activity,
  type ActivityKind,
  type ClockNote,
  type Frame,
  type GatheredNight,
  type GuidingByTarget,
  type GuidingSummary,
  type Interval,
  type JudgedFrame,
  type NightStars,
  type SkyPosition,
  type Train,
} from '../model/index.js';
import { ditherCycles } from './dithers.js';
import { interruptionDrifts } from './guiding-drift.js';
import { leewayOf, type ClockLeeway } from './clock-leeway.js';
import { summariseGuiding } from './guiding-summary.js';
import { keepLedgers } from './ledger.js';
import { judge } from './verdicts.js';

/** What the mount does for a dither. */
const PAUSE_KINDS: readonly ActivityKind[] = ['dither-move', 'settling'];

export interface AccountInput extends Pick<GatheredNight, 'trains' | 'rules' | 'darkness' | 'guiding'> {
  readonly window: Interval;
  /** Every exposure, sorted by start. */
  readonly frames: readonly Frame[];
  readonly activities: readonly Activity[];
  /** What is known about the clocks that wrote all this. */
  readonly clocks: readonly ClockNote[];
  /** Stars measured in the pixels; `null` where none were. */
  readonly stars: Pick<NightStars, 'frames'> | null;
  /** Sky at mid-exposure by frame id. */
  readonly positions: Readonly<Record<string, SkyPosition>>;
}

/**
 * Computes the night's account.
 *
 * @param standing gives a light its existing verdict, if that was based on more than is known here
 */
export function takeAccount(
  input: AccountInput,
  standing: (light: JudgedFrame) => JudgedFrame = (light) => light,
): Accounts {
  const isLight = (f: Frame) => f.kind === 'light';
  const calibration = input.frames.filter((f) => !isLight(f));
  const drifts = input.guiding ? interruptionDrifts(input.guiding, input.activities) : [];
  const leeways = leewaysOf(input);
  const lights = judge({ ...input, drifts, leeways, lights: input.frames.filter(isLight) }).map(standing);
  const ids = input.trains.map((t) => t.id);
  const dithers = ditherCycles(ids, input.frames, input.activities, leeways);
  const ledgers = keepLedgers({
    window: input.window,
    trains: ids,
    lights,
    calibration,
    activities: input.activities,
    dithers,
  });
  return {
    lights,
    dithers,
    ledgers,
    totals: totalIntegration(lights, { lengthMs: ({ exposure }) => durationMs(exposure) }),
    guidingOverall: overall(lights, input),
    guidingByTarget: guidingByTarget(lights, input.trains),
    guidingDrifts: drifts,
  };
}

/** By train: possible offset of its clock from the mount's. */
function leewaysOf({ trains, clocks, frames, activities }: AccountInput): Map<string, ClockLeeway> {
  const pilot = trains.find((t) => t.role === 'pilot') ?? trains[0];
  const moves = activities.filter((a) => PAUSE_KINDS.includes(a.kind));
  const pauses = union(moves.map((a) => a.span));
  const mountFiles = new Set(moves.flatMap((a) => a.sources.map((s) => s.file)));
  return new Map(
    trains.map(({ id }) => {
      const own = frames.filter((f) => f.train === id);
      // Mount and shutter data from one file share a clock.
      const isOneClock = id === pilot?.id || own.some((f) => f.sources.some((s) => mountFiles.has(s.file)));
      return [id, leewayOf({ id, isOneClock }, clocks, pauses, own)];
    }),
  );
}

/** Pools the frames' own summaries: mean squares weighted by samples. */
function guidingByTarget(lights: readonly JudgedFrame[], trains: readonly Train[]): GuidingByTarget[] {
  const scales = new Map(trains.map((t) => [t.id, t.pixelScaleArcsec]));
  const guided = lights.flatMap((f) => (f.guiding ? [{ frame: f, guiding: f.guiding }] : []));
  return [...groupBy(guided, ({ frame }) => JSON.stringify([frame.target ?? UNNAMED, frame.train])).values()].map(
    (members) => {
      const { frame } = members[0]!;
      const samples = sum(members.map((m) => m.guiding.samples));
      const pooled = (rms: (g: GuidingSummary) => number) =>
        Math.sqrt(sum(members.map((m) => m.guiding.samples * rms(m.guiding) ** 2)) / samples);
      const totalRmsArcsec = pooled((g) => g.totalRmsArcsec);
      const scale = scales.get(frame.train);
      return {
        target: frame.target ?? UNNAMED,
        train: frame.train,
        samples,
        raRmsArcsec: pooled((g) => g.raRmsArcsec),
        decRmsArcsec: pooled((g) => g.decRmsArcsec),
        totalRmsArcsec,
        peakArcsec: members.reduce((peak, m) => Math.max(peak, m.guiding.peakArcsec), 0),
        totalRmsPixels: scale === undefined ? undefined : totalRmsArcsec / scale,
      };
    },
  );
}

function overall(lights: readonly JudgedFrame[], { guiding, activities }: AccountInput): GuidingSummary | null {
  const first = lights[0];
  if (!guiding || !first) return null;
  const endMs = lights.reduce((latest, f) => Math.max(latest, f.exposure.endMs), first.exposure.endMs);
  const disturbed = activities.filter((a) => EXCURSION_KINDS.includes(a.kind)).map((a) => a.span);
  return summariseGuiding(guiding, { startMs: first.exposure.startMs, endMs }, disturbed);
}

export { summariseGuiding } from './guiding-summary.js';
