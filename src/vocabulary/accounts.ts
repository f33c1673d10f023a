import { keysOf } from './table.js';

interface AccountRow {
  readonly label: string;
  /** Overlapping claims go to the account with the lowest rank. */
  readonly rank: number;
  /** The shutter is open. */
  readonly open: boolean;
}

/**
 * The accounts of a train's ledger, in display order. Exactly one holds each millisecond of the window.
 *
 * The ranks resolve overlaps: an open shutter always counts as such; a hold is why the train rests, whatever else
 * happens; then what the train does itself, then what mount and guiding do to it, then waiting.
 */
export const ACCOUNT_TABLE = {
  kept: { label: 'kept', rank: 2, open: true },
  doubtful: { label: 'doubtful', rank: 1, open: true },
  lost: { label: 'lost', rank: 0, open: true },
  readout: { label: 'readout', rank: 4, open: false },
  'dither-wait': { label: 'dither wait', rank: 10, open: false },
  dither: { label: 'dither and settling', rank: 8, open: false },
  focus: { label: 'focusing', rank: 5, open: false },
  filter: { label: 'filter change', rank: 6, open: false },
  pointing: { label: 'slew, centring, flip', rank: 7, open: false },
  guiding: { label: 'guiding start, recovery', rank: 9, open: false },
  hold: { label: 'on hold', rank: 3, open: false },
  'partner-wait': { label: 'partner wait', rank: 11, open: false },
  unexplained: { label: 'unexplained', rank: 12, open: false },
} as const satisfies Readonly<Record<string, AccountRow>>;

export type Account = keyof typeof ACCOUNT_TABLE;
export const ACCOUNTS = keysOf(ACCOUNT_TABLE);

/** Accounts by rank: the written priority, first wins. */
export const ACCOUNT_PRIORITY: readonly Account[] = [...ACCOUNTS].sort(
  (a, b) => ACCOUNT_TABLE[a].rank - ACCOUNT_TABLE[b].rank,
);
