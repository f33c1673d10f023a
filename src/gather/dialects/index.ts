export type { CompiledDialect } from './compiled.js';
export { loadDialect, type LoadedDialect } from './load.js';
export { readDialectLog, type DialectLogOptions } from './read-dialect-log.js';
