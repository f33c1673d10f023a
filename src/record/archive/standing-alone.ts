/** Nights that need not be read together with their neighbours. */
import { daysApart, mayShare } from './neighbours.js';
import { mayBeSameSite } from './same-site.js';
import type { SummedNight } from './sum-file.js';

/** The files whose neighbours are all known and cannot share a frame with them: their own summaries are the night's. */
export function standingAlone(
  names: readonly string[],
  sums: ReadonlyMap<string, SummedNight>,
): Map<string, SummedNight> {
  const known = names.map((file) => sums.get(file));
  const alone = new Map<string, SummedNight>();
  // Neighbours are looked for in order; files with names that contradict their nights are not.
  const dates = known.flatMap((one) => one?.night ?? []);
  if (dates.some((date, i) => date < (dates[i - 1] ?? ''))) return alone;
  for (const [i, night] of known.entries()) {
    const file = names[i];
    if (file === undefined || night === undefined) continue;
    const isApart = (step: 1 | -1): boolean => {
      for (let j = i + step; j >= 0 && j < known.length; j += step) {
        const other = known[j];
        if (other === undefined) return false;
        if (daysApart(night.night, other.night) > 1) return true;
        if (night.night === other.night && mayBeSameSite(night.site, other.site)) return false;
        if (mayShare(night.begins, other.begins)) return false;
      }
      return true;
    };
    if (isApart(1) && isApart(-1)) alone.set(file, night);
  }
  return alone;
}
