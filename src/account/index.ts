/**
 * Verdicts, dither cycles, ledgers and totals of one night.
 */
import type {
  Activity, DarknessKind, DitherCycle, Frame, GuidingSeries, GuidingSummary, Interval, JudgedFrame, Rules, SkyPosition,
  Total, Train, TrainLedger,
} from '../model/index.js';
import { ditherCycles } from './dithers.js';
import { summariseGuiding } from './guiding-summary.js';
import { keepLedgers } from './ledger.js';
import { totalIntegration } from './totals.js';
import { judge } from './verdicts.js';

export interface AccountInput {
  readonly window: Interval;
  readonly trains: readonly Train[];
  /** Every exposure, sorted by start. */
  readonly frames: readonly Frame[];
  readonly activities: readonly Activity[];
  readonly rules: Rules;
  readonly darkness: DarknessKind;
  readonly guiding: GuidingSeries | null;
  readonly skies: ReadonlyMap<string, SkyPosition>;
}

export interface Accounts {
  readonly lights: readonly JudgedFrame[];
  readonly calibration: readonly Frame[];
  readonly dithers: readonly DitherCycle[];
  readonly ledgers: readonly TrainLedger[];
  readonly totals: readonly Total[];
  /** Guiding over all open shutters. */
  readonly guidingOverall: GuidingSummary | null;
}

/** Takes the night's account. */
export function takeAccount(input: AccountInput): Accounts {
  const isLight = (f: Frame) => f.kind === 'light';
  const calibration = input.frames.filter((f) => !isLight(f));
  const lights = judge({ ...input, lights: input.frames.filter(isLight) });
  const ids = input.trains.map((t) => t.id);
  const dithers = ditherCycles(ids, input.frames, input.activities);
  const ledgers = keepLedgers({ window: input.window, trains: ids, lights, calibration, activities: input.activities, dithers });
  return {
    lights,
    calibration,
    dithers,
    ledgers,
    totals: totalIntegration(lights),
    guidingOverall: overall(lights, input),
  };
}

function overall(lights: readonly JudgedFrame[], { guiding, activities }: AccountInput): GuidingSummary | null {
  const first = lights[0];
  if (!guiding || !first) return null;
  const endMs = lights.reduce((latest, f) => Math.max(latest, f.exposure.endMs), first.exposure.endMs);
  const disturbed = activities
    .filter((a) => a.kind === 'dither-move' || a.kind === 'settle' || a.kind === 'guiding-start' || a.kind === 'star-lost' || a.kind === 'slew' || a.kind === 'flip')
    .map((a) => a.span);
  return summariseGuiding(guiding, { startMs: first.exposure.startMs, endMs }, disturbed);
}

export { PRIORITY } from './claims.js';
export { summariseGuiding } from './guiding-summary.js';
export { LOSS_CAUSES } from './causes/index.js';
export { UNNAMED } from './totals.js';
