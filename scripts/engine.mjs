/**
 * Code is optimized when it has run twelve times as long as usual: by default, up to two fifths of the processor's time
 * of a test went into optimizing what it then runs for a moment.
 */
export const OPTIMIZED_LATE = '--interrupt-budget=800000';
