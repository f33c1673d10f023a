import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { unreadLogs } from '../../src/gather/unread-logs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

it('logs of our own formats that no rig file names are reported, others and other files are not', () => {
  const folder = tempFolder();
  const noticesFor = (files: Readonly<Record<string, string>>) => {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    return unreadLogs(
      folder,
      Object.keys(files).map((path) => ({ path, sizeBytes: 1 })),
    );
  };
  const event = '{"at":"2026-10-14T19:02:30.000Z","event":"slew-begin"}\n';
  const guiding = 'at,ra_arcsec,dec_arcsec\n';
  expect(noticesFor({ 'notes.txt': 'clear night\n', 'expected.json': '{}\n', 'frames/1.fits': event })).toEqual([]);
  const [one] = noticesFor({ 'logs/heron.jsonl': event, 'notes.txt': 'clear night\n' });
  expect(one).toMatchObject({ code: 'logs-unread', count: 1, source: { file: 'logs/heron.jsonl' } });
  expect(one?.message).toContain('1 log (logs/heron.jsonl) was found and not read');
  const [two] = noticesFor({ 'logs/heron.jsonl': event, 'logs/guiding.csv': guiding });
  expect(two?.message).toContain('2 logs (logs/heron.jsonl, logs/guiding.csv) were found and not read');
});
