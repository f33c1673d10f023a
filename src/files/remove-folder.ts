import { existsSync, rmSync } from 'node:fs';
import { nap } from './nap.js';
import { steadyMs } from './steady-clock.js';

/** One that was killed writes on for a moment on another core: how long that is waited for, and at what pace, ms. */
const PATIENCE_MS = 3000;
const NAP_MS = 20;

/**
 * Removes a folder though something may still be writing there. `rmSync` tries only the folder's own removal again,
 * and never sees a file that came after it had listed the contents.
 *
 * Synchronous, so that it can be called while the program ends. What cannot be removed stays, without an error: it is
 * left to the system, which empties its folder for temporary files.
 *
 * @param folder absolute path; nothing happens when there is none
 */
export function removeFolder(folder: string): void {
  for (const until = steadyMs() + PATIENCE_MS; ; ) {
    try {
      rmSync(folder, { recursive: true, force: true });
    } catch {
      // Not empty, or in use: tried again.
    }
    if (!existsSync(folder) || steadyMs() >= until) return;
    nap(NAP_MS);
  }
}
