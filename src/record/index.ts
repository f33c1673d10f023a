/** Night records: schema, writing, reading, and the archive of many nights. */
export { nightRecordSchema, type FrameRecord, type NightRecord, type SessionRecord } from './schema.js';
export { SCHEMA_ID } from './schema-id.js';
export { toRecord } from './write.js';
export { readRecord, type Reading } from './read.js';
export { framesOfKeys, nightOfKeys } from './public-keys.js';
export {
  KEPT,
  restoreParts,
  squareOf,
  type KeptParts,
  type KeptText,
  type Redaction,
} from './parts/index.js';
export { packParts } from './parts/store.js';
export { CURRENT_VERSION, migrate, MIGRATIONS, type Migrated, type Migration } from './migrate.js';
export { partsOfSession, type SessionParts } from './session-parts.js';
export { addSession, type Added, type MergeSessions } from './archive/add.js';
export type { Remembering } from './archive/remembered.js';
export { readArchivedNights, type ArchivedNights, type ReadingOptions } from './archive/read-nights.js';
export type { WriteFile } from './archive/write-file.js';
export { filesOfNight, readRecordFile } from './archive/files.js';
export { HeaderIndex, type FileStamp, type IndexedFile, type ReadingRules } from './archive/header-index.js';
export { jsonPieces } from './json-pieces.js';
export { recordText } from './archive/record-text.js';
export { forArchive, type ArchiveFacts } from './archive/facts.js';
export { sessionsOf } from './read.js';
export { noteSorted, sortedOf, type SortedNote } from './archive/sorted.js';
