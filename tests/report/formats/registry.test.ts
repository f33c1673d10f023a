import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FORMATS } from '../../../src/report/formats/index.js';

describe('the registry of formats', () => {
  it('has a file and a test of each format’s name', () => {
    for (const { id } of FORMATS) {
      expect(existsSync(new URL(`../../../src/report/formats/${id}.ts`, import.meta.url)), id).toBe(true);
      expect(existsSync(new URL(`./${id}.test.ts`, import.meta.url)), id).toBe(true);
    }
  });
});
