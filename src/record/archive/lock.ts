/**
 * One writer at a time: a lock file in the archive, made by whoever writes and removed when done.
 */
import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { isObject } from '../migrate.js';

export const LOCK_FILE = '.lock';

/** Another program is writing to the archive. */
export class ArchiveLocked extends Error {
  override readonly name = 'ArchiveLocked';
}

export interface LockOptions {
  /** How long to wait for another writer, ms. */
  readonly patienceMs?: number;
}

const RETRY_MS = 100;
const PATIENCE_MS = 20_000;

interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly token: string;
}

/**
 * Runs `work` as the archive's only writer. The folder is made when missing. A lock left behind by a program of this
 * computer that no longer runs is taken over; one of another computer is not, for nobody here can know.
 *
 * @throws ArchiveLocked when another writer does not finish in time
 */
export async function withLock<T>(
  archive: string,
  work: () => Promise<T>,
  { patienceMs = PATIENCE_MS }: LockOptions = {},
): Promise<T> {
  mkdirSync(archive, { recursive: true });
  const path = join(archive, LOCK_FILE);
  const mine: Holder = { pid: process.pid, host: hostname(), token: randomUUID() };
  await acquire(path, mine, patienceMs);
  try {
    return await work();
  } finally {
    if (readHolder(path)?.token === mine.token) rmSync(path, { force: true });
  }
}

async function acquire(path: string, mine: Holder, patienceMs: number): Promise<void> {
  const giveUpAt = performance.now() + patienceMs;
  for (;;) {
    if (create(path, mine)) return;
    const holder = readHolder(path);
    if (holder !== null && isGone(holder)) takeAway(path, holder);
    else if (performance.now() >= giveUpAt) throw new ArchiveLocked(explain(path, holder));
    else await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
  }
}

function create(path: string, mine: Holder): boolean {
  try {
    writeFileSync(path, JSON.stringify(mine), { flag: 'wx' });
    return true;
  } catch (error) {
    if (isCode(error, 'EEXIST')) return false;
    throw error;
  }
}

/** Who holds the lock; `null` when it is free, or being written in this very moment. */
function readHolder(path: string): Holder | null {
  try {
    const value: unknown = JSON.parse(readFileSync(path, 'utf8'));
    if (!isObject(value)) return null;
    const { pid, host, token } = value;
    return typeof pid === 'number' && typeof host === 'string' && typeof token === 'string'
      ? { pid, host, token }
      : null;
  } catch {
    return null;
  }
}

function isGone({ pid, host }: Holder): boolean {
  if (host !== hostname()) return false;
  try {
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return isCode(error, 'ESRCH');
  }
}

/** Moves a dead lock out of the way. Should a living one have come in its place meanwhile, it is put back. */
function takeAway(path: string, dead: Holder): void {
  const aside = `${path}.${randomUUID()}`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if (isCode(error, 'ENOENT')) return;
    throw error;
  }
  const moved = readHolder(aside);
  if (moved !== null && moved.token !== dead.token) create(path, moved);
  rmSync(aside, { force: true });
}

function explain(path: string, holder: Holder | null): string {
  const who = holder === null ? 'another program' : `process ${holder.pid} on ${holder.host}`;
  return `the archive is being written by ${who}; try again when it is done. If it no longer runs, delete ${path}`;
}

function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}
