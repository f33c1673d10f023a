import { followingOf, type Rows } from './lengths.js';

/** Minimum number of overlaps on one side, and how much rarer they must be on the other. */
const RARER = 3;
const TWO_ROWS = 2;
/** Tolerance for simultaneous begins or ends on two trains, ms. */
const TOGETHER_MS = 2500;

/**
 * Infers from the timeline which end of an exposure the rows' times are: varying lengths make exposures overlap under
 * the wrong assumption, and trains that wait for each other begin together but hardly ever end together.
 */
export function sideOf(rows: Rows, seconds: readonly number[]): 'begin' | 'end' | null {
  const count = rows.lines.length;
  const begin = followingOf(rows, seconds, 'begin').overlap * count;
  const end = followingOf(rows, seconds, 'end').overlap * count;
  if (end >= TWO_ROWS && end >= RARER * begin) return 'begin';
  if (begin >= TWO_ROWS && begin >= RARER * end) return 'end';
  const own = together(rows, () => 0);
  const [after, before] = [1, -1].map((sign) => together(rows, (i) => sign * (seconds[i] ?? NaN) * 1000));
  const asBegin = own - (after ?? 0);
  const asEnd = (before ?? 0) - own;
  if (asBegin >= TWO_ROWS && own >= RARER * (after ?? 0) && asBegin > asEnd) return 'begin';
  return asEnd >= TWO_ROWS && (before ?? 0) >= RARER * own ? 'end' : null;
}

/** How often rows of two trains coincide, with times at this offset from the rows' own. */
function together({ lines, trainOf }: Rows, awayMs: (nth: number) => number): number {
  const all = lines.map((line, i) => ({ atMs: line.atMs + awayMs(i), train: trainOf(line) }));
  const sorted = all.filter(({ atMs }) => !Number.isNaN(atMs)).sort((a, b) => a.atMs - b.atMs);
  return sorted.filter(({ atMs, train }, i) => {
    const next = sorted[i + 1];
    return next !== undefined && next.train !== train && next.atMs - atMs <= TOGETHER_MS;
  }).length;
}
