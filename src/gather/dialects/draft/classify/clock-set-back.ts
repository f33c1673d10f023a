import type { Kind } from '../kinds/kind.js';

const HOUR_MS = 3_600_000;
/** A backward step of about an hour, and the number of lines on both sides needed to confirm it. */
const LEAST_MS = 30 * 60_000;
const MOST_MS = 62 * 60_000;
const BESIDE = 3;
/** A log that steps back repeatedly is not in chronological order. */
const STEP_MS = 10 * 60_000;

/**
 * The line number from which the log's local clock is an hour behind, in the night in which summer time ends; `null` if
 * there is none. Spans across that hour would otherwise overlap everything after them.
 *
 * @param kinds with all timed lines of the log
 */
export function setBackAt(kinds: readonly Kind[]): number | null {
  const lines = kinds
    .flatMap(({ lines: own, atMs }) => own.map((line, i) => ({ line, atMs: atMs[i] ?? NaN })))
    .filter(({ atMs }) => !Number.isNaN(atMs))
    .sort((a, b) => a.line - b.line);
  const steps = lines.flatMap(({ atMs }, i) => (atMs < (lines[i - 1]?.atMs ?? -Infinity) - STEP_MS ? [i] : []));
  const [at] = steps;
  if (at === undefined || steps.length > 1) return null;
  const before = lines.slice(Math.max(0, at - BESIDE), at).map(({ atMs }) => atMs);
  const after = lines.slice(at, at + BESIDE).map(({ atMs }) => atMs);
  const backMs = (before.at(-1) ?? NaN) - (after[0] ?? NaN);
  const isStep = before.length === BESIDE && after.length === BESIDE && Math.min(...before) > Math.max(...after);
  return isStep && backMs >= LEAST_MS && backMs <= MOST_MS ? (lines[at]?.line ?? null) : null;
}

/** The kind with its times from that line on shifted by an hour, so that they increase steadily. */
export function asPassed(kind: Kind, fromLine: number): Kind {
  const isLater = kind.lines.some((line) => line >= fromLine);
  return isLater
    ? { ...kind, atMs: kind.atMs.map((atMs, i) => ((kind.lines[i] ?? 0) >= fromLine ? atMs + HOUR_MS : atMs)) }
    : kind;
}
