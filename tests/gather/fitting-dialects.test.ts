import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { fittingDialects } from '../../src/gather/fitting-dialects.js';

const root = mkdtempSync(join(tmpdir(), 'nightledger-fitting-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const folder = join(root, 'dialects');
mkdirSync(folder);
const dialect = (up: string) =>
  `dialect: 1\ntime: { pattern: "{epoch}" }\nlines:\n  - { when: '^${up}', event: exposure-begin }\n`;
writeFileSync(join(folder, 'one.yaml'), dialect('open'));
writeFileSync(join(folder, 'two.yaml'), dialect('auf'));
writeFileSync(join(folder, 'broken.yaml'), 'dialect: 7');
const log = (name: string, text: string) => {
  writeFileSync(join(root, name), text);
  return { path: name, sizeBytes: Buffer.byteLength(text) };
};
const lines = (word: string): string =>
  Array.from({ length: 5 }, (_, i) => `${1792012500 + i * 60} ${word}\n`).join('');

describe("the user's dialects", () => {
  it('are wired to the logs that they fit, and to no other', async () => {
    const logs = [log('a.log', lines('open')), log('b.log', lines('auf')), log('c.log', lines('tea'))];
    expect(await fittingDialects(root, logs, folder)).toEqual(
      new Map([
        ['a.log', join(folder, 'one.yaml')],
        ['b.log', join(folder, 'two.yaml')],
      ]),
    );
  });

  it('need not be there', async () => {
    expect(await fittingDialects(root, [log('a.log', 'x\n')], join(root, 'nowhere'))).toEqual(new Map());
  });
});
