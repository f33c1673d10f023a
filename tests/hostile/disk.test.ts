import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, win32 } from 'node:path';
import { describe, expect, it } from 'vitest';
import { foldersBetween } from '../../src/cli/folders.js';
import { readTextFile } from '../../src/files/read-text.js';
import { isWithin } from '../../src/files/within.js';
import { printable } from '../../src/model/index.js';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { inFull } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';
import { sessionLeadingOut } from './support/leading-out.js';

cleanUp();

const SHORT = { begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T19:50:00.000Z' };

describe('folders of others', () => {
  it('are no archive: files named by a date are left as they are', async () => {
    const diary = tempFolder();
    const files = ['2026-10-14.json', '2026-10-15.json', '2026-10-16.notes.json'];
    for (const name of files) writeFileSync(join(diary, name), '{"dear":"diary"}');
    const run = await nightledgerIn(diary, 'progress', '.', '--out', join(tempFolder(), 'out'), '--no-pdf');
    expect(run.status).toBe(1);
    expect(readdirSync(diary).sort()).toEqual(files);
  });

  it('are not written to through a link that leads among the frames', async () => {
    const [session, elsewhere] = [tempFolder(), tempFolder()];
    writeFiles(session, writeSession(shortNight(SHORT)).files);
    symlinkSync(join(session, 'frames/heron'), join(elsewhere, 'report'));
    for (const out of [join(elsewhere, 'report'), join(elsewhere, 'report/deeper')]) {
      const run = await nightledgerIn(session, 'report', '.', '--out', out, '--no-pdf');
      expect(run.status).toBe(2);
      expect(run.stderr).toContain('nothing is ever written there');
    }
    expect(existsSync(join(session, 'frames/heron/report.html'))).toBe(false);
  });
});

describe('names that steer a terminal', () => {
  it.each([
    ['\x1b]0;owned\x07', '\\x1b]0;owned\\x07'],
    ['a\x9b31mred', 'a\\x9b31mred'],
    ['gnp.exe\u202e', 'gnp.exe\\u202e'],
    ['two\nlines\r', 'two\\x0alines\\x0d'],
    ['Tücher 🔭', 'Tücher 🔭'],
  ])('%j is printed as text', (name, expected) => {
    expect(printable(name)).toBe(expected);
  });

  it.skipIf(process.platform === 'win32')('reach it as text from every message', async () => {
    const session = tempFolder();
    mkdirSync(join(session, 'frames'));
    for (const name of ['\x1b[2Jgone.fits', '\x9b2J.fits']) writeFileSync(join(session, 'frames', name), 'no fits');
    writeFileSync(join(session, '\x1b[31m.jsonl'), '{}');
    for (const args of [
      ['report', '.', '--out', 'out'],
      ['init', '.'],
      ['report', '\x1b[2J', '--out', 'x'],
      ['\x1b[2J'],
    ]) {
      const run = await nightledgerIn(session, ...args);
      expect(run.status).not.toBe(0);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
      expect(run.stdout + run.stderr).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f]/);
    }
  });
});

describe('paths of Windows', () => {
  it('from one drive or share to another lead nowhere, and end', () => {
    expect(foldersBetween('C:\\nights', '\\\\host\\share\\out', win32)).toEqual([]);
    expect(foldersBetween('\\\\host\\share\\nights', 'C:\\out', win32)).toEqual([]);
    expect(foldersBetween('C:\\nights', 'c:\\NIGHTS\\a\\b', win32)).toHaveLength(2);
    expect(isWithin('C:\\nights', 'C:\\nights-old', win32)).toBe(false);
    expect(isWithin('C:\\nights', 'C:\\nights\\..x', win32)).toBe(true);
    expect(isWithin('\\\\host\\share', '\\\\host\\share\\a', win32)).toBe(true);
  });

  it.each(['utf16le', 'utf8'] as const)('files saved as %s by an editor there are read', (encoding) => {
    const file = join(tempFolder(), 'rig.yaml');
    writeFileSync(file, Buffer.from('\uFEFFsite: { name: Hügel }\r\n', encoding));
    expect(readTextFile(file, { maxBytes: 1000 })).toBe('site: { name: Hügel }\r\n');
  });
});

describe('a stranger’s session folder', () => {
  it('has its links and dialects that lead out of it reported, and refused with --untrusted', async () => {
    const session = sessionLeadingOut('logs/heron.jsonl');
    for (const [options, followed] of [
      [[], true],
      [['--untrusted'], false],
    ] as const) {
      const out = join(tempFolder(), 'out');
      const run = await nightledgerIn(session, 'report', '.', '--out', out, '--no-pdf', ...options);
      expect(run.status).toBe(0);
      expect(run.stderr).toContain('the link frames/heron/more leads out of the session folder');
      expect(run.stderr).toMatch(followed ? /was followed/ : /was not followed/);
      expect(run.stderr).toContain('is outside the session folder');
      expect(run.stderr.includes('frames/heron/more/a.fits')).toBe(followed);
    }
  });

  it('with thousands of stray files gives a page of bounded size that counts them', async () => {
    const [session, stray] = [tempFolder(), inFull(3000, 600)];
    const junk = Array.from({ length: stray }, (_, i) => [`frames/heron/junk-${i}.fits`, 'no fits'] as const);
    writeFiles(session, new Map([...writeSession(shortNight(SHORT)).files, ...junk]));
    const out = join(tempFolder(), 'out');
    const run = await nightledger(['report', '.', '--out', out, '--no-pdf', '-q'], { cwd: session, seconds: 110 });
    expect(run, run.stderr).toMatchObject({ status: 0, withinBounds: true });
    const page = readFileSync(join(out, 'report.html'), 'utf8');
    expect(page).toContain(`${stray - 20} more like these (not-fits)`);
    expect(page.split('junk-').length).toBeLessThan(100);
  });
});
