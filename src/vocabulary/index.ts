/** The vocabulary: terms and limits, each in one typed table. Imports nothing of ours. */
export * from './accounts.js';
export * from './activities.js';
export * from './bounds.js';
export * from './causes.js';
export * from './caution.js';
export * from './clock.js';
export * from './events.js';
export * from './evidence.js';
export * from './filters.js';
export * from './fold.js';
export * from './moon-distance.js';
export * from './phrases.js';
export * from './redaction.js';
export * from './rules.js';
export * from './table.js';
export * from './twilights.js';
export * from './verdicts.js';
