/** What was sorted, night by night: where each file came from, why it is there, and its content hash. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { readTextFile } from '../files/read-text.js';
import { writeAtomically } from '../files/write-atomically.js';
import type { LinkKind } from './place.js';
import type { PlacedAs } from './plan.js';

const SCHEMA = 'nightledger/sorted/1';
const MAX_BYTES = 64_000_000;

/** A day of the year after a two-digit year, `26051`: it may also be a process number. */
export interface SortedFile {
  /** Relative to the tree, forward slashes. */
  readonly file: string;
  /** Relative to the session folder. */
  readonly source: string;
  readonly as: PlacedAs;
  readonly how: LinkKind;
  /** Of the content, hex. */
  readonly sha256: string;
  readonly bytes: number;
  /** When the file was last changed, UTC ms. */
  readonly changedMs: number;
}

/** The manifest of one night. */
export interface SortManifest {
  readonly night: string;
  /** Absolute path of the session folder. */
  readonly session: string;
  /** RFC 3339, UTC. */
  readonly at: string;
  /** Whether every file of the plan is in its place. */
  readonly complete: boolean;
  readonly files: readonly SortedFile[];
  /** Lost frames that were left in place. */
  readonly rejected: readonly string[];
  /** Logged exposures without a file. */
  readonly neverWritten: number;
  /** Darks and flats missing in the session for these frames, in words. */
  readonly lacking: readonly string[];
}

/** Name of a night's manifest: sessions of one night have one each. */
export function manifestName(night: string, session: string): string {
  return `sorted-${night}-${createHash('sha256').update(session).digest('hex').slice(0, 8)}.json`;
}

/** Names of manifests. */
export const MANIFEST_NAME = /^sorted-\d{4}-\d{2}-\d{2}-[0-9a-f]{8}\.json$/;

/** Replaces a night's manifest. */
export async function writeManifest(tree: string, manifest: SortManifest): Promise<string> {
  const path = join(tree, manifestName(manifest.night, manifest.session));
  await writeAtomically(path, `${JSON.stringify({ schema: SCHEMA, ...manifest }, null, 1)}\n`);
  return path;
}

/** What an older run recorded about the files, by path: their content need not be read again. */
export function readManifest(tree: string, night: string, session: string): ReadonlyMap<string, SortedFile> {
  try {
    const text = readTextFile(join(tree, manifestName(night, session)), { maxBytes: MAX_BYTES });
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null || !('schema' in value) || value.schema !== SCHEMA)
      return new Map();
    const files: readonly unknown[] = 'files' in value && Array.isArray(value.files) ? value.files : [];
    return new Map(files.filter(isSortedFile).map((file) => [file.file, file]));
  } catch {
    return new Map();
  }
}

function isSortedFile(value: unknown): value is SortedFile {
  return (
    typeof value === 'object' &&
    value !== null &&
    'file' in value &&
    typeof value.file === 'string' &&
    'source' in value &&
    typeof value.source === 'string' &&
    'sha256' in value &&
    typeof value.sha256 === 'string' &&
    'bytes' in value &&
    typeof value.bytes === 'number' &&
    'changedMs' in value &&
    typeof value.changedMs === 'number'
  );
}
