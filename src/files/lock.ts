/**
 * One writer at a time: a lock file in a folder, made by whoever writes and removed when done.
 */
import { randomUUID } from 'node:crypto';
import { linkSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { makeFolder } from './make-folder.js';
import { namedError } from './named-error.js';
import { isAlive } from './processes.js';
import { readTextFile } from './read-text.js';
import { steadyMs } from './steady-clock.js';

/** The lock's default name. */
export const LOCK_FILE = '.lock';

/** Another program is writing to the folder. */
export class FolderLocked extends Error {
  override readonly name = 'FolderLocked';
}

export interface LockOptions {
  /** How long to wait for another writer, ms. */
  readonly patienceMs?: number;
  /** Name of the lock file. */
  readonly file?: string;
  /** What is locked, for messages. */
  readonly what?: string;
}

const RETRY_MS = 100;
const PATIENCE_MS = 20_000;
/**
 * A lock without an owner for this long was left by a writer that could not write it, for example because the disk was
 * full, ms.
 */
const NAMELESS_MS = 1000;
const MAX_LOCK_BYTES = 100_000;

interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly token: string;
}

/**
 * Runs `work` as the folder's only writer. The folder is created if missing. A lock left by a program of this computer
 * that no longer runs is taken over; one of another computer is not, because its state is unknown here.
 *
 * @throws FolderLocked when another writer does not finish in time
 */
export async function withLock<T>(
  folder: string,
  work: () => T | Promise<T>,
  { patienceMs = PATIENCE_MS, file = LOCK_FILE, what = 'the folder' }: LockOptions = {},
): Promise<T> {
  makeFolder(folder);
  const path = join(folder, file);
  const mine: Holder = { pid: process.pid, host: hostname(), token: randomUUID() };
  await acquire(path, mine, patienceMs, what);
  try {
    return await work();
  } finally {
    if (readHolder(path)?.token === mine.token) rmSync(path, { force: true });
  }
}

async function acquire(path: string, mine: Holder, patienceMs: number, what: string): Promise<void> {
  const begun = steadyMs();
  let namelessSince: number | undefined;
  for (;;) {
    if (create(path, mine)) return;
    const now = steadyMs();
    const holder = readHolder(path);
    namelessSince = holder === null ? (namelessSince ?? now) : undefined;
    const isNameless = namelessSince !== undefined && now - namelessSince >= NAMELESS_MS;
    if ((holder !== null && isGone(holder)) || isNameless) takeAway(path, holder);
    else if (now - begun >= patienceMs + (holder === null ? 2 * NAMELESS_MS : 0))
      throw new FolderLocked(explain(path, holder, what));
    else await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
  }
}

/** Makes the lock with its holder's name in it, or not at all: it is written first and linked to its name. */
function create(path: string, mine: Holder): boolean {
  const beside = `${path}.${mine.token}`;
  try {
    writeFileSync(beside, JSON.stringify(mine), { flag: 'wx' });
    try {
      linkSync(beside, path);
    } catch (error) {
      if (isCode(error, 'EEXIST')) return false;
      // Some file systems have no links: then the owner's name is written a moment after the lock.
      return createPlainly(path, mine);
    }
    return true;
  } catch (error) {
    throw namedError(error, path);
  } finally {
    rmSync(beside, { force: true });
  }
}

function createPlainly(path: string, mine: Holder): boolean {
  let isMine = false;
  try {
    writeFileSync(path, '', { flag: 'wx' });
    isMine = true;
    writeFileSync(path, JSON.stringify(mine));
    return true;
  } catch (error) {
    if (isMine) rmSync(path, { force: true });
    if (isCode(error, 'EEXIST')) return false;
    throw error;
  }
}

/** Who holds the lock; `null` when it is free, names nobody, or is being written in this very moment. */
function readHolder(path: string): Holder | null {
  try {
    const value: unknown = JSON.parse(readTextFile(path, { maxBytes: MAX_LOCK_BYTES }));
    if (typeof value !== 'object' || value === null) return null;
    const { pid, host, token } = value as Partial<Record<keyof Holder, unknown>>;
    return typeof pid === 'number' && typeof host === 'string' && typeof token === 'string'
      ? { pid, host, token }
      : null;
  } catch {
    return null;
  }
}

function isGone({ pid, host }: Holder): boolean {
  return host === hostname() && !isAlive(pid);
}

/** Moves a dead lock out of the way. Should a living one have come in its place meanwhile, it is put back. */
function takeAway(path: string, dead: Holder | null): void {
  const aside = `${path}.${randomUUID()}`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if (isCode(error, 'ENOENT')) return;
    throw error;
  }
  const moved = readHolder(aside);
  if (moved !== null && moved.token !== dead?.token) create(path, moved);
  rmSync(aside, { recursive: true, force: true });
}

function explain(path: string, holder: Holder | null, what: string): string {
  const who = holder === null ? 'another program' : `process ${holder.pid} on ${holder.host}`;
  return `${what} is being written by ${who}; try again when that is done. If it is no longer running, delete ${path}`;
}

function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}
