import { describe, expect, it } from 'vitest';
import { FileInUse, renamePatiently, type Renamer } from '../../src/files/rename.js';

function machine(platform: NodeJS.Platform, code: string, failures: number) {
  let left = failures;
  const waits: number[] = [];
  const renamer: Renamer = {
    platform,
    waitMs: (ms) => waits.push(ms),
    rename: () => {
      if (left-- > 0) throw Object.assign(new Error('refused'), { code });
    },
  };
  return { renamer, waits };
}

describe('renamePatiently', () => {
  it('tries again where Windows refuses because another program has the file open', () => {
    const { renamer, waits } = machine('win32', 'EPERM', 3);
    renamePatiently('a', 'b', renamer);
    expect(waits).toHaveLength(3);
  });

  it('gives up after two seconds, and says what to do', () => {
    const { renamer, waits } = machine('win32', 'EBUSY', Infinity);
    const attempt = (): void => renamePatiently('a', 'report.pdf', renamer);
    expect(attempt).toThrow(FileInUse);
    expect(waits.reduce((sum, ms) => sum + ms, 0)).toBe(2000);
    expect(attempt).toThrow(/report\.pdf cannot be replaced.*Close it there/);
  });

  it.each([
    ['linux', 'EPERM'],
    ['win32', 'ENOSPC'],
  ] as const)('does not wait for what waiting cannot mend (%s, %s)', (platform, code) => {
    const { renamer, waits } = machine(platform, code, 1);
    expect(() => renamePatiently('a', 'b', renamer)).toThrow('refused');
    expect(waits).toEqual([]);
  });
});
