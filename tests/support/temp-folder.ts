import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';

const made: string[] = [];

/** A new folder that is gone after the test. Call {@link cleanUp} once in the test file. */
export function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-test-'));
  made.push(folder);
  return folder;
}

/** Removes the folders after each test. */
export function cleanUp(): void {
  afterEach(() => {
    for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
}
