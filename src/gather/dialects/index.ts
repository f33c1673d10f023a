export { checkDialect, type CheckReport } from './check/check.js';
export { formatCheck } from './check/format-check.js';
export type { CompiledDialect } from './compiled.js';
export { draftDialect } from './draft/draft.js';
export type { Draft, DraftReport } from './draft/report.js';
export { readSample, type LogSample } from './draft/sample.js';
export { loadDialect, type LoadedDialect } from './load.js';
export { readDialectLog, type DialectLogOptions } from './read-dialect-log.js';
