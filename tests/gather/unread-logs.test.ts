import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { unreadLogs } from '../../src/gather/unread-logs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

it('logs that no rig file names are reported, files that state no times are not', () => {
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
  expect(two?.message).toMatch(/writes one that names them$/);
  // Another program's log, which needs a description first.
  const other = '21:40:05 opens;L\n21:42:05 closes\n21:42:07 opens;L\n';
  const [three] = noticesFor({ 'hut.txt': other, 'notes.txt': 'clear night until 3:00\n' });
  expect(three?.message).toContain('1 log (hut.txt) was found and not read');
  expect(three?.message).toMatch(/names it, with the commands that describe logs of other programs$/);
});
