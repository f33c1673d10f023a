/**
 * Compiled code of the program, kept between runs in the user's cache folder: one file for each command.
 *
 * V8 trusts compiled code and does not check it, so only what is whole, what this very user wrote, and what nobody else
 * may write is read: a file of another user counts as none, also where the program runs as root with an ordinary user's
 * folders.
 */
import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  fstatSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { makeFolder } from '../files/make-folder.js';

/** Compiled code of one source file, and what the file was like when it was compiled. */
export interface StoredCode {
  readonly stamp: string;
  readonly code: Buffer;
}

/** By the source file's name. */
export type CodeByFile = Map<string, StoredCode>;

/** Far more than the whole program. */
const MOST_BYTES = 64 * 2 ** 20;
/** No link is followed, no pipe waited for; Windows has neither flag, and an absent one adds nothing. */
const READ = constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK;
const DIGEST_BYTES = 32;
const WRITABLE_BY_OTHERS = 0o022;

/** Reads what was stored; nothing where there is none, or it is not this user's own. */
export function readStored(file: string): CodeByFile {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(file, READ);
    const { uid, mode, size } = fstatSync(descriptor);
    const isOwn = process.geteuid === undefined || (uid === process.geteuid() && (mode & WRITABLE_BY_OTHERS) === 0);
    if (!isOwn || (mode & constants.S_IFMT) !== constants.S_IFREG || size > MOST_BYTES) return new Map();
    const bytes = readFileSync(descriptor);
    const body = bytes.subarray(DIGEST_BYTES);
    if (!digest(body).equals(bytes.subarray(0, DIGEST_BYTES))) return new Map();
    const stored: unknown = deserialize(body);
    return stored instanceof Map ? new Map([...stored].filter(isEntry)) : new Map();
  } catch {
    return new Map();
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

function isEntry(entry: readonly [unknown, unknown]): entry is [string, StoredCode] {
  const [name, value] = entry;
  if (typeof name !== 'string' || typeof value !== 'object' || value === null) return false;
  return 'stamp' in value && typeof value.stamp === 'string' && 'code' in value && Buffer.isBuffer(value.code);
}

/** Stores code for the next run: whole or not at all, readable by this user alone. Where it cannot, nothing is said. */
export function store(file: string, code: CodeByFile): void {
  const part = `${file}.${process.pid}.part`;
  const body = serialize(code);
  try {
    if (makeFolder(dirname(file), 0o700)) forgetOld(dirname(dirname(file)));
    writeFileSync(part, Buffer.concat([digest(body), body]), { mode: 0o600, flag: 'wx' });
    renameSync(part, file);
  } catch {
    remove(part);
  }
}

function digest(body: Buffer): Buffer {
  return createHash('sha256').update(body).digest();
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
