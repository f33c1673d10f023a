/** The warnings of several nights, each with the nights that it concerns. */
import { groupBy, warningsOf, type Night, type Warning } from '../model/index.js';

/** A warning as it is said on the terminal. */
export interface NightWarning extends Warning {
  /** Dates of the evenings that it concerns; absent where it concerns all that are reported. */
  readonly nights?: readonly string[];
}

/** Each warning once: what concerns the whole folder stands in every night. */
export function nightWarnings(nights: readonly Night[]): NightWarning[] {
  const all = nights.flatMap((night) => warningsOf(night).map((warning) => ({ warning, date: night.date })));
  return [...groupBy(all, ({ warning }) => JSON.stringify(warning)).values()].flatMap((same) => {
    const [first] = same;
    if (first === undefined) return [];
    const dates = [...new Set(same.map(({ date }) => date))];
    return dates.length === nights.length ? [first.warning] : [{ ...first.warning, nights: dates }];
  });
}
