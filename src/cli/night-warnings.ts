/** The warnings of several nights, each with the nights that it concerns. */
import { groupBy, warningsOf, type Night, type Warning } from '../model/index.js';

/** A warning in its terminal form. */
export interface NightWarning extends Warning {
  /** Dates of the evenings concerned; absent if it concerns all reported ones. */
  readonly nights?: readonly string[];
}

/** Each warning once: what concerns the whole folder is in every night. */
export function nightWarnings(nights: readonly Night[]): NightWarning[] {
  const all = nights.flatMap((night) => warningsOf(night).map((warning) => ({ warning, date: night.date })));
  return [...groupBy(all, ({ warning }) => JSON.stringify(warning)).values()].flatMap((same) => {
    const [first] = same;
    if (first === undefined) return [];
    const dates = [...new Set(same.map(({ date }) => date))];
    return dates.length === nights.length ? [first.warning] : [{ ...first.warning, nights: dates }];
  });
}
