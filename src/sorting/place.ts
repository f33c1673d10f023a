/** Places one file: by a link or as a copy, never over another, never partially. */
import { createHash } from 'node:crypto';
import { constants, createReadStream } from 'node:fs';
import * as disk from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { namedError } from '../files/named-error.js';

/** How a file is placed in the tree. */
export const LINK_KINDS = ['hard', 'symbolic', 'copy'] as const;
export type LinkKind = (typeof LINK_KINDS)[number];

/** The disk operations; a test may inject failures. */
export interface Disk {
  link(from: string, to: string): Promise<void>;
  symlink(from: string, to: string): Promise<void>;
  copyFile(from: string, to: string, mode: number): Promise<void>;
  mkdir(path: string, options: { recursive: true }): Promise<unknown>;
}

/** What became of a file. */
export interface Placed {
  readonly how: LinkKind;
  readonly isNew: boolean;
  /** Name in its folder, which may differ from the planned one. */
  readonly name: string;
}

export interface PlaceOptions {
  readonly on?: Disk;
  /** Whether an earlier run is known to have copied this very file to that name. */
  readonly isKnown?: (name: string) => boolean;
}

/** File systems keep times in steps of up to this, ms. */
const CLOCK_STEP_MS = 2000;

/** Errors of file systems without such links, or across devices. */
const CANNOT_LINK = new Set([
  'EXDEV',
  'EPERM',
  'EACCES',
  'ENOTSUP',
  'EOPNOTSUPP',
  'ENOSYS',
  'EMLINK',
  'EINVAL',
  'UNKNOWN',
]);

/** Errors of full file systems. */
const NO_ROOM = new Set(['ENOSPC', 'EDQUOT', 'EROFS']);

/** Copies in progress: `.nightledger-PID.part`. */
export const PARTIAL = /^\.nightledger-(\d+)\.part$/;

/**
 * Places a file in a folder of the tree. A name taken by another file is left alone, and the next free one of `names`
 * is used; the same file under one of them counts as placed.
 *
 * @param source absolute, without links in it
 * @param names in order of preference; never ends
 * @param kinds methods to try, in order
 * @throws the file system's own error
 */
export async function place(
  source: string,
  folder: string,
  names: Iterable<string>,
  kinds: readonly LinkKind[],
  { on = disk, isKnown = () => false }: PlaceOptions = {},
): Promise<Placed> {
  for (const name of names) {
    const target = join(folder, name);
    const there = await sameFile(source, target, isKnown(name));
    if (there === 'other') continue;
    if (there !== null) return { how: there, isNew: false, name };
    const how = await put(source, target, kinds, on);
    if (how !== null) return { how, isNew: true, name };
  }
  throw new Error(`no name is left for ${basename(source)} in ${folder}`);
}

/** How the target already is the source; `other` when it is another file, `null` when there is none. */
async function sameFile(source: string, target: string, isKnown: boolean): Promise<LinkKind | 'other' | null> {
  const entry = await disk.lstat(target).catch(ignoreMissing);
  if (entry === null) return null;
  const original = await disk.stat(source);
  const behind = await disk.stat(target).catch(ignoreMissing);
  if (behind === null) return 'other';
  if (behind.ino === original.ino && behind.dev === original.dev) return entry.isSymbolicLink() ? 'symbolic' : 'hard';
  if (!entry.isFile() || entry.size !== original.size) return 'other';
  if (isKnown && Math.abs(entry.mtimeMs - original.mtimeMs) <= CLOCK_STEP_MS) return 'copy';
  return (await sha256Of(target)) === (await sha256Of(source)) ? 'copy' : 'other';
}

/** The method that worked; `null` when the name was taken meanwhile. */
async function put(source: string, target: string, kinds: readonly LinkKind[], on: Disk): Promise<LinkKind | null> {
  for (const [i, kind] of kinds.entries()) {
    try {
      if (kind === 'hard') await on.link(source, target);
      else if (kind === 'symbolic') await on.symlink(source, target);
      else await copy(source, target, on);
      return kind;
    } catch (error) {
      const code = codeOf(error);
      if (code === 'EEXIST') return null;
      if (i + 1 === kinds.length || !CANNOT_LINK.has(code)) throw error;
    }
  }
  return null;
}

/** A copy is made next to its destination and renamed when complete. */
async function copy(source: string, target: string, on: Disk): Promise<void> {
  const part = join(dirname(target), `.nightledger-${process.pid}.part`);
  try {
    await on.copyFile(source, part, constants.COPYFILE_EXCL).catch((error: unknown) => {
      // The error names the source, but the destination lacks space.
      throw NO_ROOM.has(codeOf(error)) ? namedError(error, target) : error;
    });
    const { atime, mtime, size } = await disk.stat(source);
    if ((await disk.stat(part)).size !== size) throw new Error(`${source} changed while it was copied; run sort again`);
    await disk.utimes(part, atime, mtime);
    await takeName(part, target);
  } finally {
    await disk.rm(part, { force: true });
  }
}

/** A hard link fails if the name is taken; without hard links, the name is checked first. */
async function takeName(part: string, target: string): Promise<void> {
  try {
    await disk.link(part, target);
  } catch (error) {
    if (!CANNOT_LINK.has(codeOf(error))) throw error;
    if ((await disk.lstat(target).catch(ignoreMissing)) !== null)
      throw Object.assign(new Error(`${target} is there already`), { code: 'EEXIST' });
    await disk.rename(part, target);
  }
}

/** SHA-256 of a file's content, hex. */
export async function sha256Of(path: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  return hash.digest('hex');
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

function ignoreMissing(error: unknown): null {
  if (codeOf(error) === 'ENOENT') return null;
  throw error;
}
