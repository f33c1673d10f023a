/**
 * None of the files of attacks may take more memory than this at any moment. The time is bounded by the runner. Runs of
 * the compiled program have bounds of their own (`child.ts`).
 */
import { writeFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { afterAll, beforeAll, expect } from 'vitest';

/** The attacks took gigabytes; the runner, all of the program's modules and what tests before left, up to a gigabyte. */
const MOST_KILOBYTES = 1_500_000;
/** What tests before left is collected where there is more in use than this: each time takes a third of a second. */
const ROOMY_BYTES = 1e9;
/** So much must have come since the last collection: what is left of that stays, however often it is gone through. */
const WORTH_COLLECTING_BYTES = 150e6;
let leftBytes = 0;

/** Begins to count the most memory taken anew, where the system can (Linux, proc(5)): elsewhere it counts on. */
function countAnew(): void {
  if (process.memoryUsage.rss() > ROOMY_BYTES && usedBytes() > leftBytes + WORTH_COLLECTING_BYTES) {
    collect();
    leftBytes = usedBytes();
  }
  try {
    writeFileSync('/proc/self/clear_refs', '5');
  } catch {
    // The bound then holds for all files of this process together.
  }
}

function usedBytes(): number {
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

function collect(): void {
  setFlagsFromString('--expose-gc');
  const gc: unknown = runInNewContext('gc');
  // As it was: other tests of this process look at the engine's flags.
  setFlagsFromString('--no-expose-gc');
  if (typeof gc === 'function') gc();
}

/** The file whose memory is bounded. */
let bounded: string | undefined;

/** Whether the file that asks is bounded. */
export const isBounded = (): boolean => bounded !== undefined && bounded === expect.getState().testPath;

/** Bounds the memory of the file that is begun, where it is one of attacks. */
export function boundMemory(): void {
  const file = expect.getState().testPath;
  if (!/[\\/]tests[\\/]hostile[\\/]/.test(file ?? '')) return;
  bounded = file;
  beforeAll(countAnew);
  afterAll(() => {
    expect(process.resourceUsage().maxRSS, 'memory of the whole file, kB').toBeLessThan(MOST_KILOBYTES);
  });
}
