import { appendFileSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { HeaderFrame } from '../../../src/model/index.js';
import { HeaderIndex, type IndexedFile, type ReadingRules, type WriteFile } from '../../../src/record/index.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

const RULES: ReadingRules = { keep: ['TELESCOP'], extra: {}, version: '1' };
const write: WriteFile = (path, text) => {
  writeFileSync(path, text);
  return Promise.resolve();
};
const frame = (hash: string): HeaderFrame => ({ file: 'x', sizeBytes: 5760, headerHash: hash, kind: 'light' });
const file = (path: string, changedMs = 5): IndexedFile => ({ path, sizeBytes: 5760, changedMs, frame: frame(path) });
const pathsOf = (index: HeaderIndex) => [...index.all()].map((f) => f.path);

describe('the index of an imported folder', () => {
  it('remembers files from run to run', () => {
    const archive = tempFolder();
    const index = new HeaderIndex(archive, 's', RULES);
    expect(index.find(file('a'))).toBeUndefined();
    index.add([file('a'), { ...file('b'), frame: null }]);
    index.add([file('c')]);
    const again = new HeaderIndex(archive, 's', RULES);
    expect(pathsOf(again)).toEqual(['a', 'b', 'c']);
    expect(again.find(file('a'))?.frame).toEqual(frame('a'));
    expect(again.find(file('b'))?.frame).toBeNull();
  });

  it('does not know a file that has changed since', () => {
    const index = new HeaderIndex(tempFolder(), 's', RULES);
    index.add([file('a', 5)]);
    expect(index.find(file('a', 6))).toBeUndefined();
    expect(index.find({ ...file('a'), sizeBytes: 1 })).toBeUndefined();
    index.add([file('a', 6)]);
    expect(index.find(file('a', 6))).toBeDefined();
    expect(pathsOf(index)).toEqual(['a']);
  });

  it('keeps folders apart', () => {
    const archive = tempFolder();
    new HeaderIndex(archive, 's', RULES).add([file('a')]);
    expect(pathsOf(new HeaderIndex(archive, 't', RULES))).toEqual([]);
  });

  it.each([
    ['keywords', { ...RULES, keep: ['INSTRUME'] }],
    ['accepted keywords', { ...RULES, extra: { filter: ['SLOT'] } }],
    ['the program’s version', { ...RULES, version: '2' }],
  ])('forgets everything when %s change', (_, rules) => {
    const archive = tempFolder();
    new HeaderIndex(archive, 's', RULES).add([file('a')]);
    const changed = new HeaderIndex(archive, 's', rules);
    expect(pathsOf(changed)).toEqual([]);
    changed.add([file('b')]);
    expect(pathsOf(new HeaderIndex(archive, 's', rules))).toEqual(['b']);
  });

  it('goes on where a run was broken off in the middle of a line', () => {
    const archive = tempFolder();
    new HeaderIndex(archive, 's', RULES).add([file('a'), file('b')]);
    const path = join(archive, '.index/s.jsonl');
    truncateSync(path, readFileSync(path).length - 20);
    const after = new HeaderIndex(archive, 's', RULES);
    expect(pathsOf(after)).toEqual(['a']);
    after.add([file('b'), file('c')]);
    expect(pathsOf(new HeaderIndex(archive, 's', RULES))).toEqual(['a', 'b', 'c']);
  });

  it('passes over lines that are none of its own', () => {
    const archive = tempFolder();
    new HeaderIndex(archive, 's', RULES).add([file('a')]);
    appendFileSync(
      join(archive, '.index/s.jsonl'),
      '{"path":7}\n[]\nnonsense\n{"path":"b","sizeBytes":1,"changedMs":1,"frame":{"kind":"light"}}\n',
    );
    expect(pathsOf(new HeaderIndex(archive, 's', RULES))).toEqual(['a']);
  });

  it('forgets files that are gone, and is written again when most of it is out of date', async () => {
    const archive = tempFolder();
    const index = new HeaderIndex(archive, 's', RULES);
    index.add(['a', 'b', 'c', 'd'].map((path) => file(path)));
    await index.keepOnly(new Set(['a', 'b', 'c']), write);
    const path = join(archive, '.index/s.jsonl');
    expect(readFileSync(path, 'utf8').trimEnd().split('\n')).toHaveLength(5);
    await index.keepOnly(new Set(['a']), write);
    expect(readFileSync(path, 'utf8').trimEnd().split('\n')).toHaveLength(2);
    expect(pathsOf(new HeaderIndex(archive, 's', RULES))).toEqual(['a']);
  });
});
