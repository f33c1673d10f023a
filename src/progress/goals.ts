/** The goals of a target, line by line. */
import type { Goals } from '../model/index.js';

/** Hours wanted through one filter (`null`: any) on one train (`null`: all together), as milliseconds. */
export interface GoalLine {
  readonly filter: string | null;
  readonly train: string | null;
  readonly goalMs: number;
}

const HOUR = 3_600_000;

/**
 * The lines of a target's goals. A filter's own hours take precedence over its part of a ratio, and a goal over all
 * filters is only added if there are no others.
 */
export function goalLines({ hours, perTrain, ratio, totalHours }: Goals): GoalLine[] {
  const lines: GoalLine[] = Object.entries(hours).map(([filter, h]) => ({ filter, train: null, goalMs: h * HOUR }));
  for (const [train, own] of Object.entries(perTrain)) {
    for (const [filter, h] of Object.entries(own)) lines.push({ filter, train, goalMs: h * HOUR });
  }
  if (ratio) {
    const whole = Object.values(ratio.parts).reduce((sum, part) => sum + part, 0);
    for (const [filter, part] of Object.entries(ratio.parts)) {
      if (part > 0 && !lines.some((line) => sameFilter(line.filter, filter))) {
        lines.push({ filter, train: null, goalMs: (ratio.totalHours * HOUR * part) / whole });
      }
    }
  }
  if (lines.length === 0 && totalHours !== undefined)
    lines.push({ filter: null, train: null, goalMs: totalHours * HOUR });
  // A goal of nothing is none.
  return lines.filter((line) => line.goalMs > 0);
}

/** Filters are the same whatever the case of their names. */
export function sameFilter(a: string | null, b: string | null): boolean {
  return (a ?? '').trim().toLowerCase() === (b ?? '').trim().toLowerCase() && (a === null) === (b === null);
}
