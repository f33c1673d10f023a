import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isNearNight } from '../../../src/gather/dialects/time/near-night.js';
import { ROOT, sourceFiles } from '../../architecture/imports.js';

describe('a log near a night', () => {
  const noon = Date.UTC(2026, 9, 14, 12);

  it('begins between the evening before and the morning after the next', () => {
    expect([-43, -41, 0, 41, 43].map((hours) => isNearNight(noon + hours * 3_600_000, noon))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
    expect(isNearNight(NaN, noon) || isNearNight(noon, NaN)).toBe(false);
  });

  it('is defined in one place', () => {
    const own = sourceFiles().filter((file) =>
      /\b1\.75 \* (?:DAY_MS|86_400_000)/.test(readFileSync(join(ROOT, 'src', file), 'utf8')),
    );
    expect(own).toEqual(['gather/dialects/time/near-night.ts']);
  });
});
