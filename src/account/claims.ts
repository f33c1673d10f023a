/** Claims: spans claimed by an account. Overlapping claims are resolved by priority, never by splitting. */
import {
  ACCOUNT_TABLE,
  interval,
  itemAt,
  type Account,
  type Certainty,
  type Interval,
  type LedgerSegment,
} from '../model/index.js';

/** One account's claim to a span. */
export interface Claim {
  readonly account: Account;
  readonly span: Interval;
  readonly certainty: Certainty;
  readonly label?: string;
}

/**
 * Resolves the claims over the window: gapless, disjoint segments in time order. Unclaimed time is `unexplained`. O(n
 * log n) in the number of claims.
 */
export function settleClaims(claims: readonly Claim[], window: Interval): LedgerSegment[] {
  const inside = claims
    .map((claim, order) => ({
      claim,
      order,
      rank: ACCOUNT_TABLE[claim.account].rank,
      startMs: Math.max(claim.span.startMs, window.startMs),
      endMs: Math.min(claim.span.endMs, window.endMs),
    }))
    .filter((c) => c.endMs > c.startMs)
    .sort((a, b) => a.startMs - b.startMs);
  const edges = edgesOf(window, inside);

  const segments: LedgerSegment[] = [];
  let active: typeof inside = [];
  let next = 0;
  for (let i = 0; i + 1 < edges.length; i++) {
    const startMs = itemAt(edges, i);
    const endMs = itemAt(edges, i + 1);
    if (startMs === endMs) continue;
    if (active.some((c) => c.endMs <= startMs)) active = active.filter((c) => c.endMs > startMs);
    while (next < inside.length && inside[next]!.startMs <= startMs) active.push(inside[next++]!);
    const winner = active.reduce<(typeof inside)[number] | null>(
      (best, c) => (!best || c.rank < best.rank || (c.rank === best.rank && c.order < best.order) ? c : best),
      null,
    );
    append(segments, winner?.claim ?? null, startMs, endMs);
  }
  return segments;
}

/** Every instant at which something begins or ends, in order, with duplicates. */
function edgesOf(window: Interval, spans: readonly Interval[]): Float64Array {
  const edges = new Float64Array(2 * spans.length + 2);
  let next = 0;
  for (const { startMs, endMs } of [window, ...spans]) {
    edges[next++] = startMs;
    edges[next++] = endMs;
  }
  return edges.sort();
}

function append(segments: LedgerSegment[], claim: Claim | null, startMs: number, endMs: number): void {
  const account = claim?.account ?? 'unexplained';
  const last = segments.at(-1);
  if (last && last.account === account && last.label === claim?.label && isOneStretch(account, last, claim)) {
    segments[segments.length - 1] = { ...last, span: interval(last.span.startMs, endMs) };
    return;
  }
  segments.push({
    account,
    span: interval(startMs, endMs),
    certainty: claim?.certainty ?? 'measured',
    label: claim?.label,
  });
}

/** Adjacent pieces of one account are merged, but two touching exposures remain two. */
function isOneStretch(account: Account, last: LedgerSegment, claim: Claim | null): boolean {
  return ACCOUNT_TABLE[account].open
    ? claim !== null && claim.span.startMs < last.span.endMs
    : last.certainty === (claim?.certainty ?? 'measured');
}
