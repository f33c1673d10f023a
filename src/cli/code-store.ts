/**
 * Compiled code of the program, kept between runs in the user's cache folder: one file for each command.
 *
 * V8 trusts compiled code and does not check it, so a file is read only if it is complete, written by this very user,
 * and not writable by anybody else: a file of another user is ignored, even if the program runs as root with an
 * ordinary user's folders.
 *
 * The file begins with a table of contents: of several megabytes only the code of the modules that a run loads is read.
 * Checksums are CRC-32, which detects torn writes and bad disks in a twentieth of a digest's time: file ownership
 * protects against tampering.
 */
import {
  closeSync,
  constants,
  fstatSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { crc32 } from 'node:zlib';
import { makeFolder } from '../files/make-folder.js';

/** Compiled code of one source file, and the state of the file when it was compiled. */
export interface Code {
  readonly stamp: string;
  readonly code: Buffer;
}

/** By the source file's name. */
export type CodeByFile = ReadonlyMap<string, Code>;

/** Offset of a code in the stored file, from the end of the table. */
interface Place {
  readonly stamp: string;
  readonly at: number;
  readonly length: number;
  readonly sum: number;
}

/** Far more than the whole program. */
const MOST_BYTES = 64 * 2 ** 20;
/** No link is followed, no pipe waited for; Windows has neither flag, and an absent one adds nothing. */
const READ = constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK;
/** In front of the table: its length and its sum. */
const FRONT_BYTES = 8;
const WRITABLE_BY_OTHERS = 0o022;

/** A file's contents, read on demand; must be closed. Empty if there is none, or if it is not this user's. */
export class StoredCode {
  private readonly descriptor: number | undefined;
  private readonly places: ReadonlyMap<string, Place>;
  private readonly begin: number;

  constructor(file: string) {
    this.descriptor = openOwn(file);
    const front = this.read(0, FRONT_BYTES) ?? Buffer.alloc(FRONT_BYTES);
    const length = front.readUInt32LE(0);
    this.begin = FRONT_BYTES + length;
    this.places = placesIn(this.read(FRONT_BYTES, length, front.readUInt32LE(4)));
  }

  /** The code of a source file, if it was compiled from exactly that file. */
  of(name: string, stamp: string): Buffer | undefined {
    const place = this.places.get(name);
    return place?.stamp === stamp ? this.codeAt(place) : undefined;
  }

  /** All that is whole. */
  all(): CodeByFile {
    const all = new Map<string, Code>();
    for (const [name, place] of this.places) {
      const code = this.codeAt(place);
      if (code !== undefined) all.set(name, { stamp: place.stamp, code });
    }
    return all;
  }

  close(): void {
    if (this.descriptor !== undefined) closeSync(this.descriptor);
  }

  private codeAt({ at, length, sum }: Place): Buffer | undefined {
    return this.read(this.begin + at, length, sum);
  }

  /** This many bytes of the file; `undefined` if incomplete, or if their checksum differs. */
  private read(at: number, length: number, sum?: number): Buffer | undefined {
    if (this.descriptor === undefined || length > MOST_BYTES) return undefined;
    try {
      const bytes = Buffer.allocUnsafe(length);
      const isWhole = readSync(this.descriptor, bytes, 0, length, at) === length;
      return isWhole && (sum === undefined || crc32(bytes) === sum) ? bytes : undefined;
    } catch {
      return undefined;
    }
  }
}

/** Opens a file that is this user's own and that nobody else may write. */
function openOwn(file: string): number | undefined {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(file, READ);
    const { uid, mode } = fstatSync(descriptor);
    const isOwn = process.geteuid === undefined || (uid === process.geteuid() && (mode & WRITABLE_BY_OTHERS) === 0);
    if (isOwn && (mode & constants.S_IFMT) === constants.S_IFREG) return descriptor;
  } catch {
    // There is none.
  }
  if (descriptor !== undefined) closeSync(descriptor);
  return undefined;
}

function placesIn(table: Buffer | undefined): ReadonlyMap<string, Place> {
  if (table === undefined) return new Map();
  try {
    const rows: unknown = JSON.parse(table.toString());
    return new Map(Array.isArray(rows) ? rows.filter(isRow) : []);
  } catch {
    return new Map();
  }
}

function isRow(row: unknown): row is [string, Place] {
  if (!Array.isArray(row) || typeof row[0] !== 'string' || typeof row[1] !== 'object' || row[1] === null) return false;
  const { stamp, at, length, sum } = row[1];
  return typeof stamp === 'string' && [at, length, sum].every((one) => Number.isSafeInteger(one) && one >= 0);
}

/** Stores code for the next run: completely or not at all, readable by this user only. Failure is not reported. */
export function store(file: string, code: CodeByFile): void {
  const part = `${file}.${process.pid}.part`;
  try {
    if (makeFolder(dirname(file), 0o700)) forgetOld(dirname(dirname(file)));
    writeFileSync(part, inOneFile(code), { mode: 0o600, flag: 'wx' });
    renameSync(part, file);
  } catch {
    remove(part);
  }
}

function inOneFile(code: CodeByFile): Buffer {
  let at = 0;
  const rows = [...code].map(([name, { stamp, code: bytes }]): [string, Place] => {
    const place = { stamp, at, length: bytes.length, sum: crc32(bytes) };
    at += bytes.length;
    return [name, place];
  });
  const table = Buffer.from(JSON.stringify(rows));
  const front = Buffer.alloc(FRONT_BYTES);
  front.writeUInt32LE(table.length, 0);
  front.writeUInt32LE(crc32(table), 4);
  return Buffer.concat([front, table, ...[...code.values()].map((one) => one.code)]);
}

function remove(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // It was never there.
  }
}

/** Folders of engines: `0.1.0-11.3.244.8-node.38-x64`. */
const ENGINE = /^\d+\.\d+\.\d+-[\w.-]+$/;
const OLD_MS = 90 * 86_400_000;

/** Removes what versions of long ago left. */
function forgetOld(folder: string): void {
  for (const name of readdirSync(folder).filter((one) => ENGINE.test(one))) {
    const path = join(folder, name);
    if (Date.now() - statSync(path).mtimeMs > OLD_MS) rmSync(path, { recursive: true, force: true });
  }
}
