/**
 * The ledger: what every millisecond of the window was used for, on one train. The accounts add up to the window by
 * construction, because the resolved segments tile it.
 */
import {
  ACCOUNTS,
  activityRow,
  durationMs,
  hull,
  indexSpans,
  intersect,
  interval,
  POINTING_KINDS,
  type Account,
  type Activity,
  type DitherCycle,
  type Frame,
  type Interval,
  type JudgedFrame,
  type LedgerSegment,
  type TrainLedger,
  ownValue,
} from '../model/index.js';
import { settleClaims, type Claim } from './claims.js';

/** The input of the ledgers. */
export interface LedgerInput {
  readonly window: Interval;
  readonly trains: readonly string[];
  /** Lights of all trains. */
  readonly lights: readonly JudgedFrame[];
  /** Darks, flats and bias of all trains. */
  readonly calibration: readonly Frame[];
  readonly activities: readonly Activity[];
  readonly dithers: readonly DitherCycle[];
}

/** Computes one ledger per train. */
export function keepLedgers(input: LedgerInput): TrainLedger[] {
  return input.trains.map((train) => {
    const claims = ownClaims(train, input);
    const first = settleClaims(claims, input.window);
    const waits = partnerWaits(train, first, input);
    const segments = waits.length === 0 ? first : settleClaims([...claims, ...waits], input.window);
    const imaged = hull(input.lights.filter((f) => f.train === train).map((f) => f.exposure));
    return { train, segments: segments.map((s) => placed(s, imaged)), totalsMs: totals(segments) };
  });
}

function ownClaims(train: string, input: LedgerInput): Claim[] {
  const claims: Claim[] = [];
  for (const frame of input.lights) {
    if (frame.train === train) claims.push({ account: frame.verdict, span: frame.exposure, certainty: 'measured' });
  }
  for (const frame of input.calibration) {
    // Calibration in the dark uses hours without a usable sky.
    if (frame.train === train)
      claims.push({
        account: 'hold',
        span: frame.exposure,
        certainty: 'measured',
        label: `${frame.kind} frames`,
      });
  }
  for (const activity of input.activities) {
    if (activity.train !== undefined && activity.train !== train) continue;
    const claim = claimOf(activity);
    if (claim) claims.push(claim);
  }
  for (const cycle of input.dithers) {
    const wait = ownValue(cycle.waits, train);
    if (wait && wait.waitMs > 0) {
      claims.push({ account: 'dither-wait', span: interval(wait.readyMs, cycle.beginMs), certainty: wait.certainty });
    }
  }
  return claims;
}

function claimOf({ kind, span, certainty, why }: Activity): Claim | null {
  const { claims } = activityRow(kind);
  if (claims === undefined) return null;
  return { account: claims.account, span, certainty, label: claims.label ?? (kind === 'hold' ? why : undefined) };
}

/** Unused time by position: before the train's first light, after its last, or between. */
function placed(segment: LedgerSegment, imaged: Interval | null): LedgerSegment {
  if (segment.account !== 'unexplained' || imaged === null) return segment;
  const label =
    segment.span.endMs <= imaged.startMs
      ? 'before the first exposure'
      : segment.span.startMs >= imaged.endMs
        ? 'after the last exposure'
        : 'between exposures';
  return { ...segment, label };
}

/** A pointing that begins within this of a rest's end is what the rest was for, ms. */
const AT_ONCE_MS = 1000;

/**
 * Idle for the other train, for another reason than a dither: its refocus has paused guiding, or its open shutter
 * delays the next pointing.
 */
function partnerWaits(train: string, segments: readonly LedgerSegment[], input: LedgerInput): Claim[] {
  if (input.trains.length < 2) return [];
  const idle = segments.filter((s) => s.account === 'unexplained');
  if (idle.length === 0) return [];
  const pauses = indexSpans(
    input.activities.filter((a) => a.kind === 'guiding-rest' && a.causedBy !== undefined && a.causedBy !== train),
    (a) => a.span,
  );
  const pointing = indexSpans(
    input.activities.filter((a) => POINTING_KINDS.includes(a.kind)),
    (a) => a.span,
  );
  const busy = indexSpans(othersBusy(train, input), (b) => b.span);
  const claims: Claim[] = [];
  for (const { span } of idle) {
    for (const pause of pauses.touching(span)) {
      const common = intersect(span, pause.span);
      if (common)
        claims.push({
          account: 'partner-wait',
          span: common,
          certainty: 'measured',
          label: `${pause.causedBy} had paused the guiding`,
        });
    }
    const leadsToPointing = pointing
      .touching(interval(span.endMs - AT_ONCE_MS, span.endMs + AT_ONCE_MS))
      .some((p) => Math.abs(p.span.startMs - span.endMs) <= AT_ONCE_MS);
    if (!leadsToPointing) continue;
    for (const other of busy.touching(span)) {
      const common = intersect(span, other.span);
      if (common)
        claims.push({
          account: 'partner-wait',
          span: common,
          certainty: 'inferred',
          label: `${other.train} was not done yet`,
        });
    }
  }
  return claims;
}

/** When the other trains expose or read out. */
function othersBusy(train: string, { lights, activities }: LedgerInput): { train: string; span: Interval }[] {
  const shutters = lights.filter((f) => f.train !== train).map((f) => ({ train: f.train, span: f.exposure }));
  const readouts = activities.flatMap((a) =>
    a.kind === 'readout' && a.train !== undefined && a.train !== train ? [{ train: a.train, span: a.span }] : [],
  );
  return [...shutters, ...readouts];
}

function totals(segments: readonly LedgerSegment[]): Record<Account, number> {
  const sums = Object.fromEntries(ACCOUNTS.map((account) => [account, 0])) as Record<Account, number>;
  for (const segment of segments) sums[segment.account] += durationMs(segment.span);
  return sums;
}
