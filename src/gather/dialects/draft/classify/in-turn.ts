import type { Kind } from '../kinds/kind.js';

/** Which side of a span lines report. */
export type Side = 'begin' | 'end';

/** Fewer lines alternate by accident; more add nothing. */
const MIN_LINES = 2;
const MAX_LINES = 60;
const AS_OFTEN = 0.7;
const IN_TURN = 0.8;

/**
 * Which side of a span a kind reports if it alternates with another unclassified kind: a span is mostly shorter than
 * the gap after it. `null` if there is no such kind, or the evidence conflicts.
 */
export function sideInTurn(kind: Kind, others: readonly Kind[]): Side | null {
  if (kind.count < MIN_LINES) return null;
  const sides = new Set(others.flatMap((other) => (other === kind ? [] : (sideBeside(kind, other) ?? []))));
  const [side] = sides;
  return sides.size === 1 ? (side ?? null) : null;
}

function sideBeside(kind: Kind, other: Kind): Side | null {
  if (other.count < AS_OFTEN * kind.count || kind.count < AS_OFTEN * other.count) return null;
  const lines = [kind, other]
    .flatMap((one) => one.atMs.slice(0, MAX_LINES).map((atMs) => ({ atMs, isOwn: one === kind })))
    .filter(({ atMs }) => !Number.isNaN(atMs))
    .sort((a, b) => a.atMs - b.atMs);
  const after: number[] = [];
  const before: number[] = [];
  for (const [i, { atMs, isOwn }] of lines.entries()) {
    const last = lines[i - 1];
    if (last !== undefined && last.isOwn !== isOwn) (isOwn ? before : after).push(atMs - last.atMs);
  }
  if (after.length + before.length < IN_TURN * (lines.length - 1)) return null;
  const isFirst = lines[0]?.isOwn === true;
  const [afterMs, beforeMs] = [middle(after), middle(before)];
  if (isFirst && afterMs < beforeMs) return 'begin';
  return !isFirst && beforeMs < afterMs ? 'end' : null;
}

function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? Infinity;
}
