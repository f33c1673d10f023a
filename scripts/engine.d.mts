/** A flag of the engine: code is optimized when it has run twelve times as long as usual. */
export const OPTIMIZED_LATE: string;
/** Variables for the compiler: it collects garbage a quarter as often as usual. */
export const RARELY_COLLECTED: Readonly<Record<string, string>>;
