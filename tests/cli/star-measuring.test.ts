/** What the command line says while stars are measured, and what an interruption does. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Context } from '../../src/cli/context.js';
import type { Messages } from '../../src/cli/messages.js';
import { starMeasuring } from '../../src/cli/star-measuring.js';

afterEach(() => vi.restoreAllMocks());

function setUp() {
  const interrupts: (() => void)[] = [];
  let given = 0;
  const context = {
    onInterrupt: (listener: () => void) => {
      interrupts.push(listener);
      return () => given++;
    },
  } as unknown as Context;
  const progress: string[] = [];
  const notes: string[] = [];
  const messages = {
    note: (text: string) => notes.push(text),
    progress: (...parts: unknown[]) => progress.push(parts.join(' ')),
  } as unknown as Messages;
  const measuring = starMeasuring('strips', '/nowhere', context, messages);
  const { options } = measuring;
  if (options === undefined) throw new Error('nothing is measured');
  return { interrupts, given: () => given, progress, notes, options, measuring };
}

describe('measuring, as the command line has it', () => {
  it('shows the rate of a slow disk: 30 MB in two seconds are 15 MB/s', () => {
    const now = vi.spyOn(performance, 'now').mockReturnValue(1000);
    const { options, progress } = setUp();
    options.onProgress?.({ done: 0, total: 10, bytes: 0 });
    now.mockReturnValue(3000);
    options.onProgress?.({ done: 3, total: 10, bytes: 30e6 });
    expect(progress[0]).not.toMatch(/MB\/s/);
    expect(progress[1]).toMatch(/15 MB\/s/);
  });

  it('ends the measuring, not the program, at the first interruption, and says so; the next is the program’s', () => {
    const { options, interrupts, notes, given } = setUp();
    options.onProgress?.({ done: 1, total: 10, bytes: 1 });
    expect(options.signal?.aborted).toBe(false);
    interrupts[0]?.();
    expect(options.signal?.aborted).toBe(true);
    expect(given()).toBe(1);
    expect(notes.join()).toMatch(/uses what was measured so far/);
    // Frames that were in hand still come in; nothing is caught again.
    options.onProgress?.({ done: 2, total: 10, bytes: 2 });
    expect(interrupts).toHaveLength(1);
  });

  it('gives interruptions back once all is measured', () => {
    const { options, given } = setUp();
    options.onProgress?.({ done: 9, total: 10, bytes: 1 });
    options.onProgress?.({ done: 10, total: 10, bytes: 1 });
    expect(given()).toBe(1);
  });
});
