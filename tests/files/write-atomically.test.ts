import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeAtomically } from '../../src/files/write-atomically.js';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'nightledger-write-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe('writeAtomically', () => {
  it('makes the folder and the file', async () => {
    await writeAtomically(join(folder, 'a', 'b', 'report.html'), 'text');
    expect(await readFile(join(folder, 'a', 'b', 'report.html'), 'utf8')).toBe('text');
  });

  it('replaces what is there, with text or bytes, and leaves nothing beside it', async () => {
    const file = join(folder, 'report.pdf');
    await writeFile(file, 'old');
    await writeAtomically(file, Uint8Array.of(1, 2, 3));
    expect([...(await readFile(file))]).toEqual([1, 2, 3]);
    expect(await readdir(folder)).toEqual(['report.pdf']);
  });

  it('keeps the old file, and leaves nothing behind, when it cannot be replaced', async () => {
    await writeAtomically(join(folder, 'report', 'inner.txt'), 'in the way');
    await expect(writeAtomically(join(folder, 'report'), 'text')).rejects.toThrow();
    expect(await readdir(folder)).toEqual(['report']);
    expect(await readFile(join(folder, 'report', 'inner.txt'), 'utf8')).toBe('in the way');
  });
});
