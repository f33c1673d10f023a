/**
 * `nightledger/record`: the night record for programs of others, checked as nightledger checks it.
 */
export { readRecord, type Reading } from '../record/read.js';
export { SCHEMA_ID, type FrameRecord, type NightRecord, type SessionRecord } from '../record/schema.js';
