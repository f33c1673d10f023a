import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ownFormatLogs } from '../../src/gather/own-format.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

it('logs in our own formats are identified by their first lines', () => {
  const root = tempFolder();
  const texts = {
    'a.jsonl': '\uFEFF{"at":"2026-10-14T19:42:10Z","event":"exposure-begin"}\n',
    'other.jsonl': '{"at":"2026-10-14T19:42:10Z","event":"Shutter"}\n',
    'guiding.csv': 'at, ra_arcsec, dec_arcsec\n',
    'night.txt': 'shutter opens\n',
    'empty.log': '',
  };
  for (const [name, text] of Object.entries(texts)) writeFileSync(join(root, name), text);
  const files = [...Object.keys(texts), 'gone.log'].map((path) => ({ path, sizeBytes: 1 }));
  expect(ownFormatLogs(root, files)).toEqual(['a.jsonl', 'guiding.csv']);
});
