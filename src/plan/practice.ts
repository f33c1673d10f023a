/** How long things take and how often they are done. Common practice, no source, unless it says otherwise. */
const MINUTE_MS = 60_000;

/** Slewing, centring, focusing and starting the guiding on another target. */
export const TARGET_CHANGE_MS = 10 * MINUTE_MS;
/** Turning the filter and focusing. */
export const FILTER_CHANGE_MS = 3 * MINUTE_MS;
/**
 * Hours that a change must win beside the time it takes, of what is then taken through a filter, and of the best of it
 * for a target, its filters besides: a visit of half an hour is not worth the trouble.
 */
export const TARGET_EFFORT_HOURS = 0.3;
export const FILTER_EFFORT_HOURS = 1 / 5;
/**
 * Share of the night's best that an hour on a target must win: of two ways that take the same the shorter is better.
 */
export const HOUR_EFFORT = 0.1;
/** An hour counts so much less with each half hour since dusk: of two ways alike the sooner is better. */
export const SOONER_VALUE = 0.001;
/** A meridian flip with centring and guiding. */
export const FLIP_MS = 6 * MINUTE_MS;
/** Between two focus runs, and one of them. */
export const REFOCUS_EVERY_MS = 90 * MINUTE_MS;
export const REFOCUS_MS = 3 * MINUTE_MS;
/** A dither at least so often, so that a few hours have a dozen places; and no more often than this. */
export const DITHER_MOST_MS = 15 * MINUTE_MS;
export const DITHER_LEAST_MS = 5 * MINUTE_MS;
/** What lacks less than this is not worth a change of filter: it is left, hours. */
export const LEAST_LACKING_HOURS = 0.25;
/** Where a train has never used a filter. */
export const UNKNOWN_SUB_SECONDS = 300;
/** An hour of broadband counts so much more: it can only be had without the Moon. */
export const BROADBAND_VALUE = 1.2;
/** A line that lacks all of its goal counts so much more than one that lacks next to nothing. */
export const LACKING_VALUE = 0.1;
/** A target whose season ends tonight counts so much more, and from how many days on. */
export const SEASON_VALUE = 0.5;
export const SEASON_DAYS = 60;
/** A filter on the train that suits it by its pixel scale counts so much more. */
export const SUITED_VALUE = 0.05;
