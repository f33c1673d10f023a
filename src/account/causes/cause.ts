import type {
  Activity,
  Cause,
  CauseKind,
  DarknessKind,
  Frame,
  GuidingSummary,
  Rules,
  SkyPosition,
  Train,
} from '../../model/index.js';

/** What surrounds a frame: everything a cause may look at. */
export interface Surroundings {
  /** Mount motion and settling that touch the exposure, sorted. */
  readonly motion: readonly Activity[];
  /** Stretches without guiding that touch the exposure, sorted; `null` when no log speaks of guiding. */
  readonly guidingOff: readonly Activity[] | null;
  readonly guiding: GuidingSummary | null;
  readonly sky: SkyPosition | null;
  readonly train: Train;
  readonly rules: Rules;
  readonly darkness: DarknessKind;
}

/** One way a frame is harmed. The file's name is the id; the registry's order is the precedence. */
export interface LossCause {
  readonly id: CauseKind;
  /** Every instance of it on this frame; empty when it does not apply or cannot be assessed. */
  applies(frame: Frame, around: Surroundings): Cause[];
}
