/** The archive's record files: their list, their contents, and the handling of damaged ones. */
import { closeSync, constants, existsSync, fstatSync, openSync, readdirSync, readSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { readTextFile, UnsuitableFile } from '../../files/read-text.js';
import { refused } from '../../files/refused.js';
import { isRecordName, type Warning } from '../../model/index.js';
import { readRecord } from '../read.js';
import type { NightRecord } from '../schema.js';

/** A record and its file, relative to the archive. */
export interface RecordFile {
  readonly file: string;
  readonly record: NightRecord;
}

/** A larger file is not a night record. */
export const MAX_BYTES = 256_000_000;

/** The fields that identify a record, in whatever state it is. */
const MARK = 'nightledger/night/';

/** A record begins with its schema, maker and night. */
const HEAD_BYTES = 1024;
const NIGHT = /"night"\s*:\s*"(\d{4}-\d{2}-\d{2})"/;

/** Names of JSON files in the archive, the oldest night first. */
export function jsonFiles(archive: string): string[] {
  return readdirSync(archive)
    .filter((name) => name.endsWith('.json') && !name.startsWith('.'))
    .map((name) => ({ name, date: dateOf(archive, name) }))
    .sort((a, b) => compare(a.date, b.date) || compare(a.name, b.name))
    .map(({ name }) => name);
}

/** The night of a file, for sorting: from its name, or from its first lines if a user named it. */
function dateOf(archive: string, name: string): string {
  if (isRecordName(name)) return name.slice(0, 10);
  const head = Buffer.alloc(HEAD_BYTES);
  try {
    const descriptor = openSync(join(archive, name), constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    try {
      if (!fstatSync(descriptor).isFile()) return '';
      return NIGHT.exec(head.toString('utf8', 0, readSync(descriptor, head)))?.[1] ?? '';
    } finally {
      closeSync(descriptor);
    }
  } catch {
    return '';
  }
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Names of the files that the archive itself made for a night. */
export function filesOfNight(archive: string, date: string): string[] {
  return readdirSync(archive)
    .filter((name) => name.startsWith(`${date}.`) && isRecordName(name))
    .sort();
}

/**
 * Reads one record. A damaged one is renamed, so that it does not affect the next run, and never deleted; one of a
 * newer program is left alone. Files not marked as records are ignored, whatever their name.
 *
 * @param tell receives messages
 */
export function readRecordFile(archive: string, name: string, tell: (warning: Warning) => void): NightRecord | null {
  const path = join(archive, name);
  let text: string;
  try {
    text = readTextFile(path, { maxBytes: MAX_BYTES, name });
  } catch (error) {
    if (error instanceof UnsuitableFile) {
      tell(warning('record-unsuitable', name, `${error.message}, and is not a night record`));
      return null;
    }
    tell(warning('record-unreadable', name, `${name} could not be read ${refused(error)}`));
    return null;
  }
  const reading = readRecord(text);
  if (reading.ok) return reading.record;
  if (reading.state === 'newer') tell(warning('newer-record', name, `${name} was left out: ${reading.why}`));
  else if (text.includes(MARK)) tell(setAside(archive, name, reading.why));
  else if (isRecordName(name))
    tell(
      warning(
        'no-record',
        name,
        `${name} is named like a night record but is not one (${reading.why}); it was left unchanged, ` +
          'and nothing in it is counted',
      ),
    );
  return null;
}

/** A valid record, or `null`: a file that is not a record is neither reported nor changed. */
export function peekRecordFile(archive: string, name: string): NightRecord | null {
  try {
    const reading = readRecord(readTextFile(join(archive, name), { maxBytes: MAX_BYTES }));
    return reading.ok ? reading.record : null;
  } catch {
    return null;
  }
}

function setAside(archive: string, name: string, why: string): Warning {
  const remedy = 'report that night again with --archive to restore it';
  let aside = `${name}.damaged`;
  for (let n = 2; existsSync(join(archive, aside)); n++) aside = `${name}.damaged-${n}`;
  try {
    renameSync(join(archive, name), join(archive, aside));
  } catch (error) {
    return warning(
      'damaged-record',
      name,
      `${name} is damaged (${why}) and was left out; it could not be set aside ${refused(error)}. ${remedy}`,
    );
  }
  return warning(
    'damaged-record',
    name,
    `${name} is damaged (${why}); it was set aside as ${aside} and nothing in it is counted: ${remedy}`,
  );
}

function warning(code: string, file: string, message: string): Warning {
  return { code, message, source: { file } };
}
