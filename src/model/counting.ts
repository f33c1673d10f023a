/**
 * How kept time is counted over many nights: by the clock, or as the time under a dark, clear zenith sky worth the
 * same.
 */
export const COUNTINGS = ['clock', 'effective'] as const;
export type Counting = (typeof COUNTINGS)[number];
