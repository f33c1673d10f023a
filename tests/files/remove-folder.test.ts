import { spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { removeFolder } from '../../src/files/remove-folder.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

/** Makes files in its folder as fast as it can, until the folder or its time is gone. */
const WRITER = `const fs = require('node:fs');
const until = Date.now() + 400;
for (let i = 0; Date.now() < until; i++) try { fs.writeFileSync(process.argv[1] + '/' + i, ''); } catch { break; }`;

it('removes a folder in which something is still being written', async () => {
  const folder = tempFolder();
  const writer = spawn(process.execPath, ['-e', WRITER, folder], { stdio: 'ignore' });
  const ended = new Promise((resolve) => writer.once('exit', resolve));
  while (!existsSync(join(folder, '0'))) await new Promise((resolve) => setTimeout(resolve, 5));
  removeFolder(folder);
  await ended;
  expect(existsSync(folder)).toBe(false);
});

it('takes what is no folder, and no folder at all', () => {
  const file = join(tempFolder(), 'file');
  writeFileSync(file, '');
  removeFolder(file);
  expect(existsSync(file)).toBe(false);
  expect(() => removeFolder(file)).not.toThrow();
});
