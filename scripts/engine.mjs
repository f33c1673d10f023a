/**
 * Code is optimized when it has run twelve times as long as usual: by default, up to two fifths of the processor's time
 * of a test went into optimizing what it then runs for a moment.
 */
export const OPTIMIZED_LATE = '--interrupt-budget=800000';

/**
 * Regular expressions are compiled when they are first used: by default they are interpreted first, and where there are
 * as many and as long ones as in drafts, some stay up to twenty times as slow. It takes a sixth of the processor's time
 * of the tests of drafts.
 */
export const EXPRESSIONS_COMPILED = '--no-regexp-tier-up';

/**
 * Variables for the compiler, a program in Go: by default it collects garbage each time that its memory has doubled, a
 * fifth of its processor's time. It takes an eighth more memory so, a gigabyte for all that there is to check.
 */
export const RARELY_COLLECTED = { GOGC: '400' };

/**
 * Variables for the bundler, whose memory comes from mimalloc: it asks the system for pages of two megabytes, each of
 * them emptied as a whole for the little that a short run keeps there, a sixth of a build's processor time.
 */
export const SMALL_PAGES = { MIMALLOC_ALLOW_THP: '0' };

/**
 * Variables for the check of the style, a program in Rust: the tests have all cores to do, and several threads take a
 * twenty-fifth more of the processor's time than one.
 */
export const ONE_THREAD = { RAYON_NUM_THREADS: '1' };
