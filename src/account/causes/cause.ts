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
  /** Short label for tables. */
  readonly label: string;
  /** Every instance of it on this frame; empty when it does not apply or cannot be assessed. */
  applies(frame: Frame, around: Surroundings): Cause[];
}

/** `12 s`, `1.5 s`, `3 min 20 s`: for evidence sentences. */
export function inWords(ms: number): string {
  const seconds = ms / 1000;
  if (seconds < 10) return `${Number(seconds.toFixed(1))} s`;
  const whole = Math.round(seconds);
  return whole < 120 ? `${whole} s` : `${Math.floor(whole / 60)} min ${whole % 60} s`;
}
