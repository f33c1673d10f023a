/** A flag of the engine: code is optimized when it has run twelve times as long as usual. */
export const OPTIMIZED_LATE: string;
/** Another: regular expressions are compiled when they are first used. */
export const EXPRESSIONS_COMPILED: string;
/** Variables for the compiler: it collects garbage a quarter as often as usual. */
export const RARELY_COLLECTED: Readonly<Record<string, string>>;
/** Variables for the bundler: no memory in pages of two megabytes. */
export const SMALL_PAGES: Readonly<Record<string, string>>;
