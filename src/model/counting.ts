/**
 * How kept time is counted over many nights: as exposure time, or as the equivalent time under a dark, clear zenith
 * sky.
 */
export const COUNTINGS = ['clock', 'effective'] as const;
export type Counting = (typeof COUNTINGS)[number];
