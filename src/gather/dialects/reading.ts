/** Reading logs with their dialects: what a night needs, without the search for a log's dialect (`index.ts`). */
export { agreement, agreementNote, type FrameTimes } from './check/agreement.js';
export type { CompiledDialect } from './compiled.js';
export { loadDialect, type LoadedDialect } from './load.js';
export { readDialectLog, type DialectLogOptions } from './read-dialect-log.js';
