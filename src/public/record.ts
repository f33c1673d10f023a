/**
 * `nightledger/record`: the night record for programs of others, checked as nightledger checks it.
 */
export { readRecord, type Reading } from '../record/read.js';
export type { FrameRecord, NightRecord, SessionRecord } from '../record/schema.js';
export { SCHEMA_ID } from '../record/schema-id.js';
