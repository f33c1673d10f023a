/** `nightledger/record`: the night record for other programs, validated as by nightledger. */
export { readRecord, type Reading } from '../record/read.js';
export type { FrameRecord, NightRecord, SessionRecord } from '../record/schema.js';
export { SCHEMA_ID } from '../record/schema-id.js';
