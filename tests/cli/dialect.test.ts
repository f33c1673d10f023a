import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { loadDialect } from '../../src/gather/dialects/index.js';
import { nightledgerIn } from '../support/command-line.js';
import { sampleFolder } from '../support/sample-night.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-dialect-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const dialect = (...args: string[]) => nightledgerIn(folder, 'dialect', ...args);

const iso = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20) + seconds * 1000).toISOString();

const log = (name: string): string => join(sampleFolder('mixed-dialects'), 'logs', name);

describe('nightledger dialect draft', () => {
  it('prints a dialect that loads, and what it rests on to stderr', async () => {
    const run = await dialect('draft', log('hut-one.txt'));
    expect(run.status).toBe(0);
    expect(run.stderr).toContain('rules proposed');
    expect(loadDialect('draft.yaml', run.stdout).dialect).not.toBeNull();
  });

  it('wants a log, not a frame or a rig file', async () => {
    writeFileSync(join(folder, 'heron_0001.fits.gz'), '');
    writeFileSync(join(folder, 'rig.yaml'), 'trains: []\n');
    for (const [name, what] of [
      ['heron_0001.fits.gz', 'is a frame'],
      ['rig.yaml', 'is a rig file'],
    ] as const)
      for (const command of ['draft', 'check']) {
        const run = await dialect(command, name);
        expect(run.status, `${command} ${name}`).toBe(1);
        expect(run.stderr).toContain(`${name} ${what}`);
      }
    rmSync(join(folder, 'rig.yaml'));
  });

  it('writes to a file, never over one', async () => {
    expect(await dialect('draft', log('hut-one.txt'), '--out', 'mine.yaml', '-q')).toMatchObject({
      status: 0,
      stdout: '',
      stderr: '',
    });
    writeFileSync(join(folder, 'mine.yaml'), 'edited by hand');
    expect((await dialect('draft', log('hut-one.txt'), '--out', 'mine.yaml')).status).toBe(1);
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe('edited by hand');
  });

  it('makes the folder that the file is to lie in', async () => {
    expect(await dialect('draft', log('hut-one.txt'), '--out', 'new/dialects/hut.yaml', '-q')).toMatchObject({
      status: 0,
    });
    expect(readFileSync(join(folder, 'new/dialects/hut.yaml'), 'utf8')).toContain('dialect: 1');
  });

  it('has a line ready for trains that the rig file above the log calls otherwise', async () => {
    const session = mkdtempSync(join(folder, 'trains-'));
    writeFileSync(
      join(session, 'rig.yaml'),
      'trains:\n  - { id: heron, frames: [ "heron*" ] }\n  - { id: wren, frames: [ "wren*" ] }\n',
    );
    const lines = ['left', 'right'].flatMap((train, k) =>
      Array.from({ length: 12 }, (_, i) => i * 310 + k * 97).flatMap((s) => [
        `${iso(s)} ${train}: exposure begins, 300 s`,
        `${iso(s + 300)} ${train}: exposure ends`,
      ]),
    );
    writeFileSync(join(session, 'log.txt'), `${lines.sort().join('\n')}\n`);
    const run = await dialect('draft', join(session, 'log.txt'));
    expect(run.stdout).toContain('# trains: { "left": heron, "right": wren }');
    // As it is printed, and with the line put to use, it is a dialect.
    for (const text of [run.stdout, run.stdout.replace('# trains:', 'trains:')])
      expect(loadDialect('draft.yaml', text).dialect).not.toBeNull();
  });

  it('ends with 1 for a log that is not there and with 2 without one', async () => {
    expect(await dialect('draft', 'nowhere.log')).toMatchObject({ status: 1 });
    writeFileSync(join(folder, 'empty.log'), '\n');
    expect(await dialect('draft', 'empty.log', '--out', 'none.yaml')).toMatchObject({
      stdout: '',
      stderr: expect.stringContaining('empty.log contains no informative line') as string,
    });
    expect(existsSync(join(folder, 'none.yaml'))).toBe(false);
    expect((await dialect('draft')).status).toBe(2);
  });
});

describe('nightledger dialect check', () => {
  it('uses the dialect that the rig file names for the log', async () => {
    const run = await dialect('check', log('hut-two.txt'));
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(run.stdout).toContain('read by the dialect "night watch"');
    expect(run.stdout).toMatch(/unmatched +0 /);
    expect(run.stdout).toContain('exposure-begin (wren)');
  });

  it('uses the dialect that is named, in the zone that is named', async () => {
    copyFileSync(log('hut-one.txt'), join(folder, 'alone.txt'));
    const file = join(sampleFolder('mixed-dialects'), 'dialects/hut-diary.yaml');
    const run = await dialect('check', 'alone.txt', '--dialect', file, '--zone', 'Europe/Madrid', '--train', 'heron');
    expect(run.stdout).toContain('2026-10-24 19:30:00Z  line 2      slew-begin (heron)');
  });

  it('tells exposures in daylight: the zone is wrong', async () => {
    const session = mkdtempSync(join(folder, 'zone-'));
    writeFileSync(
      join(session, 'rig.yaml'),
      'site: { name: Cierzo Hill, latitude: 40.42, longitude: -1.12, timezone: Europe/Madrid }\ntrains: [ { id: heron, logs: [ { files: log.txt, dialect: d.yaml } ] } ]\n',
    );
    writeFileSync(
      join(session, 'log.txt'),
      'at 20:10 on 2026-06-21 frame opened\nat 20:15 on 2026-06-21 frame closed\n',
    );
    writeFileSync(
      join(session, 'd.yaml'),
      'dialect: 1\ntime: { pattern: "at {hour}:{minute} on {year}-{month}-{day}", zone: UTC+2 }\nlines:\n  - { when: frame opened, event: exposure-begin }\n  - { when: frame closed, event: exposure-end }\n',
    );
    expect((await dialect('check', join(session, 'log.txt'))).stdout).toContain(
      '1 of 1 exposures begin in daylight at Cierzo Hill (the first on line 1)',
    );
  });

  it('falls back to a draft, and says so', async () => {
    copyFileSync(log('hut-one.txt'), join(folder, 'unknown.txt'));
    expect((await dialect('check', 'unknown.txt')).stdout).toContain('this is what `dialect draft` would produce');
  });

  it('ends with 1 for a broken dialect, naming line and fix', async () => {
    writeFileSync(
      join(folder, 'broken.yaml'),
      'dialect: 1\ntime: { pattern: "{hour}:{minute}" }\nlines: [ { when: "(", event: note } ]\n',
    );
    const run = await dialect('check', log('hut-one.txt'), '--dialect', join(folder, 'broken.yaml'));
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('line 3');
  });
});
