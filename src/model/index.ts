/** The model: plain data and the algebra on it. Imports nothing of ours but itself. */
export * from './activity.js';
export * from './angle.js';
export * from './collections.js';
export * from './event.js';
export * from './frame.js';
export * from './guiding.js';
export * from './interval.js';
export * from './interval-index.js';
export * from './ledger.js';
export * from './night.js';
export * from './sky.js';
export * from './source.js';
export * from './statistics.js';
export * from './target.js';
export * from './verdict.js';
export * from './warning.js';
