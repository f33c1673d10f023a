import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';

cleanUp();

const DAY_MS = 86_400_000;
const HOUR = /\d{1,2}:\d{2}(?::\d{2})? UTC/;

/** With `--wait` a report is made when the Sun is up: its hour, of some nights, is the place of the site. */
describe('the hour at which it was made', () => {
  it('stands neither in a shared edition nor in the times of its files', { timeout: 180_000 }, async () => {
    const out = join(tempFolder(), 'shared');
    const session = tempFolder();
    const night = shortNight({ begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T19:50:00.000Z' });
    writeFiles(session, writeSession(night).files);
    const run = await nightledger(['report', session, '--out', out, '--share', '--stars', 'off', '--quiet'], {
      cwd: tempFolder(),
      seconds: 150,
    });
    expect(run.status).toBe(0);
    const files = readdirSync(out).filter((name) => statSync(join(out, name)).isFile());
    expect(files).toContain('report.pdf');
    for (const name of files) expect(statSync(join(out, name)).mtimeMs % DAY_MS, name).toBe(0);
    for (const name of ['report.html', 'night.json', 'summary.md', 'frames.csv'])
      expect(readFileSync(join(out, name), 'utf8'), name).not.toMatch(HOUR);
    const pdf = readFileSync(join(out, 'report.pdf'), 'latin1');
    const dates = [...pdf.matchAll(/(?:CreationDate|ModDate) \(D:\d{8}(\d{6})(.*?)\)/g)];
    expect(dates.map(([, hour, zone]) => `${hour}${zone}`)).toEqual(["000000+00'00'", "000000+00'00'"]);
    expect(pdf).not.toMatch(/Mozilla|Skia|Linux|Windows NT|Macintosh/);
  });
});
