/** How long things take and how often they are done. Common practice, no source, unless stated otherwise. */
const MINUTE_MS = 60_000;

/** Slewing, centring, focusing and starting the guiding on another target. */
export const TARGET_CHANGE_MS = 10 * MINUTE_MS;
/** Turning the filter and focusing. */
export const FILTER_CHANGE_MS = 3 * MINUTE_MS;
/**
 * Minimum gain of a change in hours besides its time, through the new filter, and of the best one for a target, in
 * addition to its filters: a visit of half an hour is not worthwhile.
 */
export const TARGET_EFFORT_HOURS = 0.3;
export const FILTER_EFFORT_HOURS = 1 / 5;
/**
 * Minimum gain of an hour on a target as a fraction of the night's best: of two equivalent sequences the shorter is
 * better.
 */
export const HOUR_EFFORT = 0.1;
/** Reduction of an hour's weight with each half hour since dusk: of two equal sequences the earlier is better. */
export const SOONER_VALUE = 0.001;
/** A meridian flip with centring and guiding. */
export const FLIP_MS = 6 * MINUTE_MS;
/** Between two focus runs, and one of them. */
export const REFOCUS_EVERY_MS = 90 * MINUTE_MS;
export const REFOCUS_MS = 3 * MINUTE_MS;
/** A dither at least this often, so that a few hours have a dozen positions; and no more often than this. */
export const DITHER_MOST_MS = 15 * MINUTE_MS;
export const DITHER_LEAST_MS = 5 * MINUTE_MS;
/** A smaller remainder is not worth a filter change and is left, hours. */
export const LEAST_LACKING_HOURS = 0.25;
/** For a filter that a train has never used. */
export const UNKNOWN_SUB_SECONDS = 300;
/** Weight of an hour of broadband: it is only possible without the Moon. */
export const BROADBAND_VALUE = 1.2;
/** Weight of a line that lacks all of its goal relative to one that lacks next to nothing. */
export const LACKING_VALUE = 0.1;
/** Weight of a target whose season ends tonight, and from how many days on. */
export const SEASON_VALUE = 0.5;
export const SEASON_DAYS = 60;
/** Weight of a filter on the train that suits it by its pixel scale. */
export const SUITED_VALUE = 0.05;
