import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../../src/files/make-folder.js';
import { readSource, sourceFiles } from '../architecture/imports.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const codeOf = (make: () => unknown): string | undefined => {
  try {
    make();
  } catch (error) {
    return error instanceof Error && 'code' in error ? String(error.code) : String(error);
  }
  return undefined;
};

describe('a folder', () => {
  it('is made with those around it, and left as it is where it is there', () => {
    const deep = join(tempFolder(), 'a', 'b', 'c');
    expect(makeFolder(deep)).toBe(true);
    writeFileSync(join(deep, 'x'), '');
    expect(makeFolder(deep)).toBe(false);
    expect(readdirSync(deep)).toEqual(['x']);
  });

  it.skipIf(process.platform === 'win32')('has the permissions that are asked for', () => {
    const around = join(tempFolder(), 'mine');
    makeFolder(join(around, 'inner'), 0o700);
    expect(statSync(around).mode & 0o777).toBe(0o700);
  });

  it('is not made in the place of a file, or below one: the error names what was asked for', () => {
    const file = join(tempFolder(), 'file');
    writeFileSync(file, '');
    expect(codeOf(() => makeFolder(file))).toBe('EEXIST');
    expect(['ENOTDIR', 'ENOENT']).toContain(codeOf(() => makeFolder(join(file, 'below'))));
  });

  // Node's own `recursive` never comes back from here (Node 20.20).
  it.runIf(existsSync('/proc/self'))(
    'that cannot be created is reported if the system claims that nothing is there',
    () => {
      expect(() => makeFolder('/proc/nightledger/report')).toThrow(/\/proc accepts no new folders/);
    },
  );

  // But for the folders of a tree that is there, which a test may put failures in the place of.
  it('is made by nothing else in the sources that makes those around it', () => {
    const others = sourceFiles().filter((file) =>
      /(?<!on\.)\bmkdir(?:Sync)?\((?!path: )[^;]*recursive/.test(readSource(file)),
    );
    expect(others).toEqual([]);
  });
});
