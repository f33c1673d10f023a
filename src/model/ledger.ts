import type { Account } from '../vocabulary/index.js';
import type { Certainty } from './activity.js';
import type { Interval } from './interval.js';

/** A span of one account on one train's ledger. */
export interface LedgerSegment {
  readonly account: Account;
  readonly span: Interval;
  readonly certainty: Certainty;
  /** Its description: `settling after dither`, `cloud`. */
  readonly label?: string;
}

/** One train's ledger over the window: disjoint, gapless segments whose lengths add up to the window's. */
export interface TrainLedger {
  readonly train: string;
  readonly segments: readonly LedgerSegment[];
  /** Total per account, ms; every account is present. */
  readonly totalsMs: Readonly<Record<Account, number>>;
}

/** One dither, seen by every train. */
export interface DitherCycle {
  /** When the mount began to move, UTC ms. */
  readonly beginMs: number;
  readonly move: Interval;
  /** Absent when no settling was logged. */
  readonly settle?: Interval;
  readonly pixels?: number;
  /**
   * Per train id: when it was ready and how long it waited (ms); `null` when its shutter was open or it took no part.
   */
  readonly waits: Readonly<Record<string, DitherWait | null>>;
  /** The train that was ready last, or `null` when fewer than two trains took part. */
  readonly holder: string | null;
  readonly certainty: Certainty;
}

export interface DitherWait {
  readonly readyMs: number;
  readonly waitMs: number;
  readonly certainty: Certainty;
}

/** In totals, the key of a target or filter that neither header nor log names. */
export const UNNAMED = 'unnamed';

/** Frames and integration of one target, filter and train. Milliseconds of exposure. */
export interface Total {
  readonly target: string;
  readonly filter: string;
  readonly train: string;
  readonly frames: Readonly<VerdictTally>;
  readonly ms: Readonly<VerdictTally>;
}

/** A total's key: target, filter and train. */
export function totalKey({ target, filter, train }: Pick<Total, 'target' | 'filter' | 'train'>): string {
  return JSON.stringify([target, filter, train]);
}

export interface VerdictTally {
  readonly taken: number;
  readonly kept: number;
  readonly doubtful: number;
  readonly lost: number;
}
