import { describe, expect, it } from 'vitest';
import { formatPath } from '../../src/model/index.js';

describe('a place in a file', () => {
  it.each([
    [[], ''],
    [['site', 'latitude'], 'site.latitude'],
    [['trains', 0, 'role'], 'trains#1.role'],
    [['targets', 1, 'aliases', 2], 'targets#2.aliases#3'],
    [[0, 'name'], '#1.name'],
  ])('%j is %s: items are counted from 1', (path, text) => {
    expect(formatPath(path)).toBe(text);
  });
});
