import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { some } from '../support/runs.js';
import { FolderLocked, withLock } from '../../src/files/lock.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const lockOf = (archive: string) => join(archive, '.lock');

/** The id of a process that has ended. */
function endedProcess(): number {
  return spawnSync(process.execPath, ['-e', '']).pid;
}

describe('a folder’s lock', () => {
  it('lets one writer in at a time, and the next when the first is done', async () => {
    const archive = tempFolder();
    const order: string[] = [];
    const work = (name: string) => async () => {
      order.push(`${name} begins`);
      await new Promise((resolve) => setTimeout(resolve, 30));
      order.push(`${name} ends`);
    };
    await Promise.all([withLock(archive, work('a')), withLock(archive, work('b')), withLock(archive, work('c'))]);
    for (let i = 0; i < order.length; i += 2) expect(order[i + 1]).toBe(order[i]?.replace('begins', 'ends'));
    expect(existsSync(lockOf(archive))).toBe(false);
  });

  it('is let go when the work fails', async () => {
    const archive = tempFolder();
    await expect(withLock(archive, () => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect(existsSync(lockOf(archive))).toBe(false);
  });

  it('is taken over from a program of this computer that no longer runs', async () => {
    const archive = tempFolder();
    writeFileSync(lockOf(archive), JSON.stringify({ pid: endedProcess(), host: hostname(), token: 'dead' }));
    expect(await withLock(archive, () => Promise.resolve('in'), { patienceMs: 0 })).toBe('in');
  });

  it.each(some(['{"pid":', '', 'null', '{"pid":1}'], 1))(
    'is taken over when it names nobody (%j), as a full disk leaves it',
    async (text) => {
      const archive = tempFolder();
      writeFileSync(lockOf(archive), text);
      // A second passes at once.
      vi.useFakeTimers({ toFake: ['setTimeout', 'hrtime'] });
      try {
        const inside = withLock(archive, () => 'in', { patienceMs: 0 });
        await vi.advanceTimersByTimeAsync(900);
        expect(existsSync(lockOf(archive))).toBe(true);
        expect(readFileSync(lockOf(archive), 'utf8')).toBe(text);
        await vi.advanceTimersByTimeAsync(300);
        expect(await inside).toBe('in');
      } finally {
        vi.useRealTimers();
      }
      expect(readdirSync(archive)).toEqual([]);
    },
  );

  it.each([
    ['one that runs', { pid: process.pid, host: hostname() }],
    ['one of another computer', { pid: 1, host: 'some-other-machine' }],
  ])('is not taken from %s, and the message says whose it is and what to do', async (_, holder) => {
    const archive = tempFolder();
    writeFileSync(lockOf(archive), JSON.stringify({ ...holder, token: 'theirs' }));
    const attempt = withLock(archive, () => Promise.resolve(), { patienceMs: 0 });
    await expect(attempt).rejects.toThrow(FolderLocked);
    await expect(attempt).rejects.toThrow(`process ${holder.pid} on ${holder.host}; try again when that is done`);
    expect(readFileSync(lockOf(archive), 'utf8')).toContain('theirs');
  });
});
