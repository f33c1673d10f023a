import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REPLAY_SETTINGS } from '../../src/model/index.js';

describe('the guide to the replay', () => {
  const guide = readFileSync(new URL('../../docs/replay.md', import.meta.url), 'utf8');

  it('lists every setting with what it means', () => {
    for (const { usage, meaning } of REPLAY_SETTINGS) {
      const row = guide.split('\n').find((line) => line.startsWith(`| \`${usage.split('|')[0] ?? ''}\``));
      expect(row, usage).toBeDefined();
      expect(row?.replaceAll("'", '’'), usage).toContain(meaning);
    }
  });
});
