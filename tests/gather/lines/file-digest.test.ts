import { createHash } from 'node:crypto';
import {
  appendFileSync,
  closeSync,
  existsSync,
  mkdtempSync,
  openSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { fileDigest } from '../../../src/gather/lines/file-digest.js';

// The build makes the thread's program a start file of its own; tests run after a build.
const program = fileURLToPath(new URL('../../../dist/digest-worker.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'nightledger-digest-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const text = Buffer.alloc(1_300_000, 'a log of one night\n');
const digestOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

/** The digest of a file that is changed once it is open. */
async function digested(program: string, change: (path: string) => void): Promise<string> {
  const path = join(folder, 'a.log');
  writeFileSync(path, text);
  const descriptor = openSync(path, 'r');
  try {
    change(path);
    return await fileDigest(descriptor, text.length, program, 0).end();
  } finally {
    closeSync(descriptor);
  }
}

describe('the digest of a large file', () => {
  it.each([
    ['in a thread', program],
    ['where the thread fails', fileURLToPath(import.meta.url)],
    ['where the thread says nothing', fileURLToPath(new URL('../../../dist/header-worker.js', import.meta.url))],
  ])('is that of the bytes at opening, or of those that are left: %s', async (_, withProgram) => {
    expect(existsSync(program)).toBe(true);
    expect(await digested(withProgram, (path) => appendFileSync(path, 'and more'))).toBe(digestOf(text));
    expect(await digested(withProgram, (path) => truncateSync(path, 700_000))).toBe(
      digestOf(text.subarray(0, 700_000)),
    );
  });
});
