import { median } from '../../model/index.js';
import type { Durations } from '../course.js';

/**
 * Durations as measured; if there are none, an assumed one.
 *
 * @param values in their order, ms
 * @param assumedMs replaces a missing measurement
 */
export function durationsOf(values: readonly (number | null)[], assumedMs: number): Durations {
  const pool = values.filter((v): v is number => v !== null);
  return pool.length > 0
    ? { inOrder: values, pool, typicalMs: Math.round(median(pool)), certainty: 'measured' }
    : { inOrder: [], pool: [assumedMs], typicalMs: assumedMs, certainty: 'assumed' };
}
