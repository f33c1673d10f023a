import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { digestOfProject, unlessPassed } from '../../scripts/passed-before.mjs';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

/** Changes are detected by it; without it every check is repeated. */
const hasGit = spawnSync('git', ['--version']).status === 0;

it.skipIf(!hasGit)(
  'a check is made again after any change to a file that is not ignored, and until it passes',
  async () => {
    const root = tempFolder();
    const write = (name: string, text: string) => writeFileSync(join(root, name), text);
    mkdirSync(join(root, 'node_modules'));
    write('node_modules/.package-lock.json', '{}');
    write('.gitignore', 'node_modules\n.cache\n');
    write('a.ts', 'one');
    expect(digestOfProject(root)).toBeNull();
    spawnSync('git', ['init', '-q'], { cwd: root });

    let passed = true;
    let meanwhile = (): void => {};
    const isMade = async (): Promise<boolean> => {
      let made = false;
      await unlessPassed(
        join(root, '.cache/style'),
        () => digestOfProject(root),
        () => {
          made = true;
          meanwhile();
          return Promise.resolve({ passed });
        },
      );
      return made;
    };
    expect([await isMade(), await isMade()]).toEqual([true, false]);
    for (const change of [
      () => write('a.ts', 'two'),
      () => write('b.ts', ''),
      () => rmSync(join(root, 'b.ts')),
      () => write('node_modules/.package-lock.json', '{ "packages": {} }'),
    ]) {
      change();
      passed = false;
      expect([await isMade(), await isMade()]).toEqual([true, true]);
      passed = true;
      expect([await isMade(), await isMade()]).toEqual([true, false]);
    }
    meanwhile = () => write('a.ts', 'three');
    write('c.ts', '');
    expect(await isMade()).toBe(true);
    meanwhile = () => {};
    write('a.ts', 'two');
    expect([await isMade(), await isMade()]).toEqual([true, false]);
    write('node_modules/ignored.js', '');
    expect(await isMade()).toBe(false);
  },
);
