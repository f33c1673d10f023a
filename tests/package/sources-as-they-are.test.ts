import { mkdirSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { digestOfFiles } from '../../scripts/bundle/sources-as-they-are.mjs';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

it('tests count as compiled until a file of theirs or a library changes', () => {
  const root = tempFolder();
  const path = (name: string): string => join(root, name);
  const write = (name: string, text: string): void => writeFileSync(path(name), text);
  for (const folder of ['node_modules', 'src/inner', 'tests', 'docs']) mkdirSync(path(folder), { recursive: true });
  write('node_modules/.package-lock.json', '{}');
  write('src/inner/a.ts', 'one');
  write('tests/a.test.ts', 'one');

  let known = digestOfFiles(root, ['src', 'tests']);
  const hasChanged = (): boolean => {
    const before = known;
    known = digestOfFiles(root, ['src', 'tests']);
    return known !== before;
  };
  expect(hasChanged()).toBe(false);
  for (const change of [
    () => write('src/inner/a.ts', 'three'),
    // The same length, at another time.
    () => {
      write('src/inner/a.ts', 'seven');
      utimesSync(path('src/inner/a.ts'), 1, 1);
    },
    () => renameSync(path('tests/a.test.ts'), path('tests/b.test.ts')),
    () => write('tests/c.test.ts', ''),
    () => rmSync(path('tests/b.test.ts')),
    () => write('node_modules/.package-lock.json', '{ "packages": {} }'),
  ]) {
    change();
    expect(hasChanged(), String(change)).toBe(true);
    expect(hasChanged()).toBe(false);
  }
  write('docs/page.md', 'other');
  expect(hasChanged()).toBe(false);
});
