/** A flag of the engine: code is optimized when it has run twelve times as long as usual. */
export const OPTIMIZED_LATE: string;
