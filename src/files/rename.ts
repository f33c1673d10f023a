import { renameSync } from 'node:fs';
import { nap } from './nap.js';

/** Codes under which Windows refuses while another program has the file open: a viewer, an indexer, a virus scanner. */
const BUSY: readonly string[] = ['EPERM', 'EACCES', 'EBUSY'];
/** Waits between attempts, ms: two seconds in all, as long as a scanner usually takes. */
const WAITS_MS = [20, 40, 80, 160, 320, 640, 740];

/** A file could not be replaced because another program has it open. */
export class FileInUse extends Error {
  override readonly name = 'FileInUse';
}

/** What {@link renamePatiently} does it with; a test hands in its own. */
export interface Renamer {
  readonly rename: (from: string, to: string) => void;
  readonly platform: NodeJS.Platform;
  readonly waitMs: (ms: number) => void;
}

const THIS_MACHINE: Renamer = {
  rename: renameSync,
  platform: process.platform,
  waitMs: nap,
};

/**
 * Renames a file over another. Where a system forbids that while a program has one of them open, it is tried again for
 * two seconds.
 *
 * @throws FileInUse when it stays open; the file system's own error otherwise
 */
export function renamePatiently(from: string, to: string, machine: Renamer = THIS_MACHINE): void {
  for (const wait of [...WAITS_MS, undefined]) {
    try {
      machine.rename(from, to);
      return;
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? String(error.code) : '';
      if (machine.platform !== 'win32' || !BUSY.includes(code)) throw error;
      if (wait === undefined)
        throw new FileInUse(
          `${to} cannot be replaced (${code}): another program seems to have it open. Close it there ` +
            'and run this again',
        );
      machine.waitMs(wait);
    }
  }
}
