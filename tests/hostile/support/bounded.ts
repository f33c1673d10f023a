/**
 * Every file of attacks runs in a process of its own; none may have taken more memory than this at any moment. The time
 * is bounded by the runner. Runs of the compiled program have bounds of their own (`child.ts`).
 */
import { afterAll, expect } from 'vitest';

/** The attacks took gigabytes; the runner and all of the program's modules take some 300 MB. */
const MOST_KILOBYTES = 1_500_000;

if (/[\\/]tests[\\/]hostile[\\/]/.test(expect.getState().testPath ?? ''))
  afterAll(() => {
    expect(process.resourceUsage().maxRSS, 'memory of the whole file, kB').toBeLessThan(MOST_KILOBYTES);
  });
