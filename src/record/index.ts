/** Night records: schema and writing. */
export { nightRecordSchema, SCHEMA_ID, type NightRecord } from './schema.js';
export { toRecord } from './write.js';
