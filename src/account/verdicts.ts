/** The verdict on every light: kept unless a cause objects; lost when any cause loses it. */
import {
  extended,
  displacementOf,
  EXCURSION_KINDS,
  indexSpans,
  interval,
  judgeFrame,
  MOUNT_KINDS,
  NO_LEEWAY,
  UNGUIDED_KINDS,
  type Activity,
  type ActivityKind,
  type DarknessKind,
  type Frame,
  type GuidingSeries,
  type Interval,
  type InterruptionDrift,
  type JudgedFrame,
  type Leeway,
  type NightStars,
  type Rules,
  type SkyPosition,
  type Train,
  ownValue,
  starSigmas,
  usualStars,
} from '../model/index.js';
import type { ClockLeeway } from './clock-leeway.js';
import { focusHarm } from './focus-harm.js';
import { summariseGuiding } from './guiding-summary.js';
import { smearOf } from './smear.js';

/** Anything that ended at most this long before an interval leads to it, ms. */
const JUST_BEFORE_MS = 2000;

/** Range in which motion adjacent to an exposure is considered, ms. */
const SETTLING_MS = 60_000;

/** The input of verdicts. */
export interface VerdictInput {
  /** Lights, sorted by start. */
  readonly lights: readonly Frame[];
  readonly activities: readonly Activity[];
  readonly trains: readonly Train[];
  readonly rules: Rules;
  readonly darkness: DarknessKind;
  readonly guiding: GuidingSeries | null;
  readonly drifts: readonly InterruptionDrift[];
  /** Possible offset of a train's clock from the mount's. */
  readonly leeways: ReadonlyMap<string, ClockLeeway>;
  readonly stars: Pick<NightStars, 'frames'> | null;
  /** Sky at mid-exposure by frame id. */
  readonly positions: Readonly<Record<string, SkyPosition>>;
}

/** Judges every light. */
export function judge(input: VerdictInput): JudgedFrame[] {
  const guidingKnown = input.activities.some((a) => a.kind === 'guiding-on' || UNGUIDED_KINDS.includes(a.kind));
  const motion = ofKinds(input.activities, MOUNT_KINDS);
  const off = ofKinds(input.activities, UNGUIDED_KINDS);
  const drifts = indexSpans(input.drifts, (d) => d.span);
  const driftsNear = (frame: Frame) => drifts.touching(frame.exposure);
  const trains = new Map(input.trains.map((t) => [t.id, t]));
  const excursions = ofKinds(input.activities, EXCURSION_KINDS);
  const usual = usualStars(input.lights, input.stars, input.rules);
  const sigmas = starSigmas(input);
  const harmOf = focusHarm(input);
  const within = (frame: Frame): Leeway => {
    const ms = input.leeways.get(frame.train)?.aboutMs(frame.exposure) ?? 0;
    if (ms === 0) return NO_LEEWAY;
    const near = interval(frame.exposure.startMs - ms, frame.exposure.endMs + ms);
    return { ms, motion: motion.touching(near), guidingOff: off.touching(near) };
  };
  return input.lights.map((frame): JudgedFrame => {
    const train = trains.get(frame.train) ?? { id: frame.train, role: 'companion' as const };
    // Excursions are unrelated to guiding quality; their effect on a frame has separate causes.
    const disturbed = excursions.touching(frame.exposure).map((a) => a.span);
    const guiding = input.guiding ? summariseGuiding(input.guiding, frame.exposure, disturbed) : null;
    const sky = ownValue(input.positions, frame.id) ?? null;
    const moved = motion.touching(frame.exposure);
    const unguided = off.touching(frame.exposure);
    const sigmaArcsec = sigmas.get(frame.train);
    const judged = judgeFrame(frame, {
      motion: moved,
      guidingOff: guidingKnown ? unguided : null,
      guiding,
      sky,
      train,
      rules: input.rules,
      darkness: input.darkness,
      stars: ownValue(input.stars?.frames, frame.id) ?? null,
      usual: usual.get(frame.id) ?? null,
      leeway: within(frame),
      worseFocus: harmOf(frame),
      displacement:
        input.guiding === null || sigmaArcsec === undefined
          ? null
          : displacementOf({
              exposure: frame.exposure,
              motion: motion.touching(around(frame.exposure)),
              guidingOff: unguided,
              guiding: input.guiding,
              drifts: drifts.touching(reach(frame.exposure, unguided)),
              sigmaArcsec,
            }),
    });
    const smear = input.guiding ? smearOf(frame, input.guiding, driftsNear(frame), train) : null;
    return extended(frame, {
      verdict: judged.verdict,
      causes: judged.causes,
      cleared: judged.cleared,
      sky,
      guiding,
      smear,
    });
  });
}

/** Including the mount's motion adjacent to the exposure: the settling shows how far a dither at its end went. */
function around({ startMs, endMs }: Interval): Interval {
  return interval(startMs - SETTLING_MS, endMs + SETTLING_MS);
}

/** An exposure and the intervals without guiding that overlap it, including what just ended before them. */
function reach({ startMs, endMs }: Interval, unguided: readonly Activity[]): Interval {
  const first = unguided.reduce((earliest, a) => Math.min(earliest, a.span.startMs), startMs);
  return interval(first - JUST_BEFORE_MS, endMs);
}

function ofKinds(activities: readonly Activity[], kinds: readonly ActivityKind[]) {
  return indexSpans(
    activities.filter((a) => kinds.includes(a.kind)),
    (a) => a.span,
  );
}
