/**
 * The ledger of a train over several sessions of one night.
 */
import {
  ACCOUNTS,
  clip,
  coveredMs,
  durationMs,
  interval,
  subtract,
  VERDICT_KINDS,
  type Account,
  type Interval,
} from '../../model/index.js';
import type { FrameRecord, SessionRecord } from '../schema.js';

const OPEN: readonly Account[] = VERDICT_KINDS;
const isOpen = (account: Account): boolean => (OPEN as readonly Account[]).includes(account);

/** A session's ledger of one train, and the share of its frames that no better session has. */
export interface LedgerShare {
  readonly session: SessionRecord;
  readonly share: number;
}

/**
 * One train's ledger in seconds. Open shutter is summed up anew from the frames that count. What the train did with
 * its shutter closed is the sum over the sessions, each by the share of its frames that count; `unexplained` is what
 * the window leaves over. Were there more than the window holds, the closed accounts are scaled to fit.
 */
export function mergedLedger(
  train: string,
  window: Interval,
  frames: readonly FrameRecord[],
  shares: readonly LedgerShare[],
): SessionRecord['ledger'] {
  const ms = new Map<Account, number>(ACCOUNTS.map((account) => [account, 0]));
  let open: Interval[] = [];
  for (const verdict of OPEN) {
    const spans = clip(frames.filter((f) => f.verdict === verdict).map(exposureOf), window);
    ms.set(verdict, coveredMs(subtract(spans, open)));
    open = [...open, ...spans];
  }
  const roomMs = durationMs(window) - coveredMs(open);
  for (const { session, share } of shares) {
    for (const row of session.ledger) {
      if (row.train !== train || isOpen(row.account) || row.account === 'unexplained') continue;
      ms.set(row.account, (ms.get(row.account) ?? 0) + Math.round(row.seconds * 1000 * share));
    }
  }
  const closed = ACCOUNTS.filter((account) => !isOpen(account) && account !== 'unexplained');
  const closedMs = closed.reduce((sum, account) => sum + (ms.get(account) ?? 0), 0);
  if (closedMs > roomMs) {
    for (const account of closed) ms.set(account, Math.floor(((ms.get(account) ?? 0) * roomMs) / closedMs));
  }
  const bookedMs = closed.reduce((sum, account) => sum + (ms.get(account) ?? 0), 0);
  ms.set('unexplained', roomMs - bookedMs);
  return ACCOUNTS.map((account) => ({ train, account, seconds: (ms.get(account) ?? 0) / 1000 }));
}

/** The span of a frame's exposure, UTC ms. */
export function exposureOf(frame: FrameRecord): Interval {
  const startMs = Date.parse(frame.begin);
  return interval(startMs, startMs + Math.round(frame.seconds * 1000));
}
