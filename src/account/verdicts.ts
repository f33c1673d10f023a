/**
 * The verdict on every light: kept unless a cause speaks against it; lost when any cause loses it.
 */
import {
  indexSpans,
  judgeFrame,
  MOUNT_KINDS,
  UNGUIDED_KINDS,
  type Activity,
  type ActivityKind,
  type DarknessKind,
  type Frame,
  type GuidingSeries,
  type InterruptionDrift,
  type JudgedFrame,
  type Rules,
  type SkyPosition,
  type Train,
  ownValue,
} from '../model/index.js';
import { summariseGuiding } from './guiding-summary.js';
import { smearOf } from './smear.js';

/** What verdicts are founded on. */
export interface VerdictInput {
  /** Lights, sorted by start. */
  readonly lights: readonly Frame[];
  readonly activities: readonly Activity[];
  readonly trains: readonly Train[];
  readonly rules: Rules;
  readonly darkness: DarknessKind;
  readonly guiding: GuidingSeries | null;
  readonly drifts: readonly InterruptionDrift[];
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
  return input.lights.map((frame): JudgedFrame => {
    const train = trains.get(frame.train) ?? { id: frame.train, role: 'companion' as const };
    const guiding = input.guiding ? summariseGuiding(input.guiding, frame.exposure) : null;
    const sky = ownValue(input.positions, frame.id) ?? null;
    const judged = judgeFrame(frame, {
      motion: motion.touching(frame.exposure),
      guidingOff: guidingKnown ? off.touching(frame.exposure) : null,
      guiding,
      sky,
      train,
      rules: input.rules,
      darkness: input.darkness,
      stars: null,
      usual: null,
      displacement: null,
    });
    const smear = input.guiding ? smearOf(frame, input.guiding, driftsNear(frame), train) : null;
    return { ...frame, ...judged, sky, guiding, smear };
  });
}

function ofKinds(activities: readonly Activity[], kinds: readonly ActivityKind[]) {
  return indexSpans(
    activities.filter((a) => kinds.includes(a.kind)),
    (a) => a.span,
  );
}
