/**
 * The summary of a record, stored next to it in the archive: read instead of the record as long as its file is
 * byte-identical to the one summarised. A tenth of the time: the record's text is hashed, not parsed.
 */
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readInPieces, readTextFile } from '../../files/read-text.js';
import { isObject, type Counting } from '../../model/index.js';
import { readRecord } from '../read.js';
import { MAX_BYTES } from './files.js';
import { INDEX_FOLDER } from './header-index.js';
import type { Guard } from './guards.js';
import { beginsOf, type SummedNight } from './sum-file.js';
import { isKeptSums, isSummary, SUMS_FORMAT, type KeptSums } from './sums-shape.js';
import { summarise } from './summary.js';
import type { WriteFile } from './write-file.js';

/** Some 5 kB a night. */
const MOST_BYTES = 1_000_000;

function pathOf(archive: string, file: string): string {
  return join(archive, INDEX_FOLDER, 'sums', file);
}

/**
 * Stores the summary of a record. If that is impossible it is not reported: the record is read instead.
 *
 * @param file of the record, relative to the archive
 * @param text the text written to it
 */
export async function keepSums(archive: string, file: string, text: string, write: WriteFile): Promise<void> {
  // As whoever reads the file will find it.
  const reading = readRecord(text);
  if (!reading.ok) return;
  const { record } = reading;
  const sums: KeptSums = {
    format: SUMS_FORMAT,
    record: createHash('sha256').update(text).digest('hex'),
    begins: beginsOf(record.frames),
    night: summarise({ file, record }, 'clock'),
  };
  const effective = summarise({ file, record }, 'effective');
  if (!survivesJson([sums, effective])) return;
  try {
    await write(pathOf(archive, file), `${JSON.stringify(sums)}\n${JSON.stringify(effective)}\n`);
  } catch {
    // The record is what counts.
  }
}

/** The summary of a record; `null` if not known for this very file. */
export function keptSums(archive: string, file: string, counting: Counting): SummedNight | null {
  const path = pathOf(archive, file);
  // Most archives that lack one lack all, and creating an error takes longer.
  if (!existsSync(path)) return null;
  try {
    const [first = '', second = ''] = readTextFile(path, { maxBytes: MOST_BYTES }).split('\n');
    const sums = checked(first, isKeptSums);
    const effective = counting === 'clock' ? null : checked(second, isSummary);
    if (sums.night.file !== file || (effective !== null && effective.file !== file)) return null;
    if (digestOf(join(archive, file)) !== sums.record) return null;
    const { date, site } = sums.night;
    return {
      night: date,
      site: site && { latitude: site.latitudeDeg, longitude: site.longitudeDeg },
      begins: sums.begins,
      summed: effective === null ? { night: sums.night, byClock: null } : { night: effective, byClock: sums.night },
    };
  } catch {
    return null;
  }
}

/** @throws Error when it is no JSON, or has another shape */
function checked<T>(text: string, isSound: Guard<T>): T {
  const value: unknown = JSON.parse(text);
  if (!isSound(value)) throw new TypeError('not what was kept');
  return value;
}

/** Whether a value survives a JSON round trip; a field without a value counts as absent. */
export function survivesJson(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value) && !Object.is(value, -0);
  if (Array.isArray(value)) return value.every(survivesJson);
  if (isObject(value)) return Object.values(value).every((inner) => inner === undefined || survivesJson(inner));
  return value === null || typeof value === 'string' || typeof value === 'boolean';
}

function digestOf(path: string): string {
  const hash = createHash('sha256');
  readInPieces(path, { maxBytes: MAX_BYTES }, (piece) => hash.update(piece));
  return hash.digest('hex');
}
