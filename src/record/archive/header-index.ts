/**
 * What is known about the files of an imported folder, so that a second run reads only what is new. One line per file,
 * append-only: an interrupted import resumes where it was.
 */
import { appendFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder } from '../../files/make-folder.js';
import { readTextFile } from '../../files/read-text.js';
import { isObject, type HeaderFrame } from '../../model/index.js';
import type { WriteFile } from './write-file.js';

/** Folder of the archive for indexes. */
export const INDEX_FOLDER = '.index';

/** A file on disk. */
export interface FileStamp {
  /** Relative to the imported folder, forward slashes. */
  readonly path: string;
  readonly sizeBytes: number;
  readonly changedMs: number;
}

/** A file whose header was read; `null` when it could not be. */
export interface IndexedFile extends FileStamp {
  readonly frame: HeaderFrame | null;
}

/** Headers read by other rules must be read again. */
export interface ReadingRules {
  readonly keep: readonly string[];
  readonly extra: Readonly<Record<string, readonly string[]>>;
  /** The program's version: a later one may extract more from the same header. */
  readonly version: string;
}

/** A larger index is rebuilt, bytes: a million files take half of it. */
const MAX_INDEX_BYTES = 500_000_000;

const FORMAT = 'nightledger/header-index/2';

/** The index of one imported folder. */
export class HeaderIndex {
  private readonly path: string;
  private readonly heading: string;
  private readonly entries = new Map<string, IndexedFile>();
  /** Number of lines overridden by later ones. */
  private stale = 0;
  private isEmpty = true;

  /** Opens the index of a session's folder; one that is missing, damaged or made by other rules is empty. */
  constructor(archive: string, session: string, rules: ReadingRules) {
    this.path = join(archive, INDEX_FOLDER, `${session}.jsonl`);
    this.heading = JSON.stringify({ format: FORMAT, version: rules.version, keep: rules.keep, extra: rules.extra });
    this.load();
  }

  /** What is known about a file, if it is unchanged. */
  find({ path, sizeBytes, changedMs }: FileStamp): IndexedFile | undefined {
    const entry = this.entries.get(path);
    return entry && entry.sizeBytes === sizeBytes && entry.changedMs === changedMs ? entry : undefined;
  }

  /** Every known file, including those gone from the folder. */
  all(): Iterable<IndexedFile> {
    return this.entries.values();
  }

  /** Adds files that were read. */
  add(files: readonly IndexedFile[]): void {
    if (files.length === 0) return;
    makeFolder(dirname(this.path));
    appendFileSync(this.path, `${this.isEmpty ? `${this.heading}\n` : ''}${files.map(toLine).join('')}`, {
      flag: this.isEmpty ? 'w' : 'a',
    });
    this.isEmpty = false;
    for (const file of files) this.put(file);
  }

  /** Forgets files that the folder no longer holds, and rewrites the index when much of it is out of date. */
  async keepOnly(paths: ReadonlySet<string>, write: WriteFile): Promise<void> {
    for (const path of [...this.entries.keys()]) {
      if (paths.has(path)) continue;
      this.entries.delete(path);
      this.stale++;
    }
    if (this.stale <= this.entries.size) return;
    await write(this.path, `${this.heading}\n${[...this.entries.values()].map(toLine).join('')}`);
    this.stale = 0;
  }

  private load(): void {
    let text: string;
    try {
      text = readTextFile(this.path, { maxBytes: MAX_INDEX_BYTES });
    } catch {
      return;
    }
    const [heading, ...lines] = text.split('\n');
    if (heading !== this.heading) return;
    this.isEmpty = false;
    // A truncated line is ignored: its file is read again.
    for (const line of lines) {
      const file = fromLine(line);
      if (file) this.put(file);
    }
    if (!text.endsWith('\n')) appendFileSync(this.path, '\n');
  }

  private put(file: IndexedFile): void {
    if (this.entries.has(file.path)) this.stale++;
    this.entries.set(file.path, file);
  }
}

function toLine({ path, sizeBytes, changedMs, frame }: IndexedFile): string {
  return `${JSON.stringify({ path, sizeBytes, changedMs, frame })}\n`;
}

function fromLine(line: string): IndexedFile | null {
  if (line === '') return null;
  try {
    const value: unknown = JSON.parse(line);
    return isIndexedFile(value) ? value : null;
  } catch {
    return null;
  }
}

/** The index is written by this program only; a complete line has all fields of the frame. */
function isIndexedFile(value: unknown): value is IndexedFile {
  if (!isObject(value)) return false;
  const { path, sizeBytes, changedMs, frame } = value;
  return (
    typeof path === 'string' &&
    typeof sizeBytes === 'number' &&
    typeof changedMs === 'number' &&
    (frame === null || (isObject(frame) && typeof frame.headerHash === 'string' && typeof frame.kind === 'string'))
  );
}
