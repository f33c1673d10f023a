import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { HEADERS_ONLY } from '../support/generator/scenarios.js';
import { writeSession } from '../support/generator/write-session.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { sessionLeadingOut } from './support/leading-out.js';

cleanUp();

describe.skipIf(process.platform === 'win32')('a stranger’s session, whose links and dialects lead out of it', () => {
  let session = '';
  beforeEach(() => {
    session = sessionLeadingOut('logs/heron.log', { 'logs/heron.log': '2026-11-09 20:00:00 start\n' });
  });

  it.each([
    ['report', () => ['report', '.', '--out', join(tempFolder(), 'out'), '--no-pdf', '--stars', 'off']],
    ['sort', () => ['sort', '.', '--into', join(tempFolder(), 'tree'), '--stars', 'off']],
    ['init', () => ['init', '.', '--print']],
    ['archive add', () => ['archive', 'add', '.', '--archive', join(tempFolder(), 'archive')]],
  ])('is reported by %s, and with --untrusted not followed', async (_, args) => {
    const trusting = await nightledgerIn(session, ...args());
    expect(trusting.stderr).toContain('the link frames/heron/more leads out of the session folder and was followed');
    const wary = await nightledgerIn(session, ...args(), '--untrusted');
    expect(wary.status).toBe(0);
    expect(wary.stderr).toContain('was not followed');
    expect(wary.stderr).not.toContain('more/a.fits');
  });

  it('is not followed by replay, which may find too little left', async () => {
    const wary = await nightledgerIn(session, 'replay', '.', '--stars', 'off', '--untrusted');
    expect(wary.stderr).not.toMatch(/more\/a\.fits|was followed/);
  });

  it('gives no dialect from outside to dialect check', async () => {
    const log = join(session, 'logs/heron.log');
    expect((await nightledgerIn(session, 'dialect', 'check', log)).stderr).not.toContain('lies outside');
    const wary = await nightledgerIn(session, 'dialect', 'check', log, '--untrusted');
    expect(wary).toMatchObject({ status: 1, stdout: '' });
    expect(wary.stderr).toContain('is outside the session folder and was not read');
  });

  it('gives no frames from outside to dialect draft', async () => {
    const elsewhere = tempFolder();
    const bare = tempFolder();
    writeFiles(elsewhere, writeSession(HEADERS_ONLY).files);
    const begin = '2026-11-09 19:30:00';
    writeFiles(bare, new Map([['a.log', Array.from({ length: 20 }, () => `${begin} exposure start`).join('\n')]]));
    mkdirSync(join(bare, 'session'));
    symlinkSync(join(elsewhere, 'frames'), join(bare, 'session/frames'));
    const draft = (...more: string[]) =>
      nightledgerIn(bare, 'dialect', 'draft', 'a.log', '--session', 'session', ...more);
    expect((await draft()).status).toBe(0);
    expect((await draft('--untrusted')).stderr).not.toMatch(/frames? of the session/);
  });
});
