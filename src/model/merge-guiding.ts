/**
 * Several guiding logs as one series, sorted by time.
 */
import { numbersOf } from './collections.js';
import type { GuidingSeries } from './guiding.js';

/** Merges series; samples at the same instant are kept once, the first one's. `null` for none. */
export function mergeGuiding(series: readonly GuidingSeries[]): GuidingSeries | null {
  const only = series[0];
  if (!only) return null;
  if (series.length === 1 && isSorted(only.atMs)) return only;
  const rows = series.flatMap((s, of) => Array.from(s.atMs, (atMs, i) => ({ atMs, of, i })));
  rows.sort((a, b) => a.atMs - b.atMs || a.of - b.of || a.i - b.i);
  const once = rows.filter((row, i) => i === 0 || row.atMs !== rows[i - 1]!.atMs);
  const column = (name: 'atMs' | 'raArcsec' | 'decArcsec' | 'snr') =>
    numbersOf(once, ({ of, i }) => series[of]![name][i]!);
  return {
    atMs: column('atMs'),
    raArcsec: column('raArcsec'),
    decArcsec: column('decArcsec'),
    snr: column('snr'),
    sources: series.flatMap((s) => s.sources),
  };
}

function isSorted(values: Float64Array): boolean {
  for (let i = 1; i < values.length; i++) if (values[i]! < values[i - 1]!) return false;
  return true;
}
