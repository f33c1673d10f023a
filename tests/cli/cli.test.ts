import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { EXPORTS } from '../../src/cli/report.js';
import { parseRig } from '../../src/config/index.js';
import { FORMATS } from '../../src/report/index.js';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { HEADERS_ONLY } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'nightledger-cli-'));

const nightledger = (...args: string[]) => nightledgerIn(folder, ...args);

const HOUR = { begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T20:30:00.000Z' };
/** An hour with rig file and logs, without a mishap. */
const hour = join(folder, 'hour');
writeFiles(hour, writeSession(shortNight({ ...HOUR, guidingEverySeconds: 20 })).files);
/** The same by headers alone. */
const frames = join(folder, 'headers');
writeFiles(frames, writeSession(shortNight(HOUR), { rig: false, logs: false }).files);

/** Names in a folder, without the manifest and the like. */
function visible(path: string): string[] {
  return readdirSync(path)
    .filter((name) => !name.startsWith('.'))
    .sort();
}

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('nightledger report', () => {
  it('writes page and record, names them on stdout, and ends with 0', async () => {
    const out = join(folder, 'made/deep/inside');
    const run = await nightledger('report', hour, '--out', out, '--no-pdf');
    expect(run.status).toBe(0);
    // Nothing is warned of: what the night comes to, in the page's own words, and what to do.
    const page = readFileSync(join(out, 'report.html'), 'utf8');
    const summary = /<meta name="description" content="([^"]+)">/.exec(page)?.[1] ?? 'no summary';
    expect(run.stderr).toContain(`nightledger: Night of 14 to 15 October 2026: ${summary} `);
    for (const line of run.stderr.trim().split('\n')) expect(line).toMatch(/^nightledger: (?!warning)/);
    expect(run.stdout.trim().split('\n')).toEqual(
      ['report.html', 'night.json', 'frames.csv', 'frames'].map((name) => join(out, name)),
    );
    expect(visible(out)).toEqual(['frames', 'frames.csv', 'night.json', 'report.html']);
    expect(JSON.parse(readFileSync(join(out, 'night.json'), 'utf8'))).toMatchObject({
      schema: 'nightledger/night/1',
      night: '2026-10-14',
    });
  });

  it('replaces an existing report and leaves no partial file next to it; writes warnings to stderr, and nothing when quiet', async () => {
    const out = join(folder, 'again');
    const first = await nightledger('report', frames, '--out', out, '--no-pdf');
    // Warnings are no failure.
    expect(first.status).toBe(0);
    expect(first.stderr).toContain('warning: no rig file');
    writeFileSync(join(out, 'report.html'), 'old');
    writeFileSync(join(out, 'notes.txt'), 'mine');
    expect(await nightledger('report', frames, '--out', out, '--no-pdf', '--quiet')).toEqual({
      status: 0,
      stdout: '',
      stderr: '',
    });
    expect(readFileSync(join(out, 'report.html'), 'utf8')).toMatch(/^<!doctype html>/i);
    expect(readFileSync(join(out, 'notes.txt'), 'utf8')).toBe('mine');
    expect(visible(out)).toEqual(['frames', 'frames.csv', 'night.json', 'notes.txt', 'report.html']);
  });

  it('ends with 1 when there is nothing to report, and says why', async () => {
    const empty = mkdtempSync(join(folder, 'empty-'));
    const run = await nightledger('report', empty, '--out', join(folder, 'none'));
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('nothing to report');
    expect(existsSync(join(folder, 'none'))).toBe(false);
    writeFileSync(join(empty, '2026-10-14.json'), '{}');
    const archive = await nightledger('report', empty, '--out', join(folder, 'none'));
    expect(archive.status).toBe(1);
    expect(archive.stderr).toContain(`It contains night records: \`nightledger progress ${empty}\``);
  });

  it('ends with 1 for a broken rig file, naming every problem', async () => {
    const spoilt = mkdtempSync(join(folder, 'spoilt-'));
    writeFileSync(join(spoilt, 'rig.yaml'), 'trains: [ { id: heron, frames: 5 } ]\ndarkness: pitch\n');
    const run = await nightledger('report', spoilt, '--out', join(folder, 'none'));
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('rig.yaml:1: trains#1.frames must be a glob');
    expect(run.stderr).toContain('rig.yaml:2: darkness must be civil, nautical or astronomical');
  });

  it.each([
    [['report']],
    [['report', '.']],
    [['report', '/no/such/folder', '--out', 'x']],
    [['report', '.', '--out', '.']],
    [['report', '.', '--out', 'x', '--paper', 'a3']],
    [['report', '.', '--out', 'x', '--night', 'yesterday']],
    [['report', '.', '--out', 'x', '--night', '2026-13-01']],
    [['sort', '.', '--into', 'x', '--night', 'yesterday']],
    [['replay', '.', '--night', '2026-02-30']],
    [['divine', 'the', 'future']],
    [['report', '.', '--out', 'x', '--no-such-option']],
    // A variable of the shell that is not set: the folder that one stands in is not meant.
    [['report', '', '--out', 'x']],
    [['report', '.', '--out', '']],
    [['archive', 'add', 'a', '', '--archive', 'x']],
  ])('ends with 2 for %j', async (args) => {
    const run = await nightledger(...args);
    expect(run.status).toBe(2);
    expect(run.stderr).not.toBe('');
    if (args.includes('')) expect(run.stderr).toMatch(/ is empty; give a value, or look for an unset variable$/m);
    if (args.join(' ') === 'report .') expect(run.stderr).toContain('nightledger report --help');
  });

  it('never writes among the frames', async () => {
    const session = join(folder, 'session');
    writeFiles(session, writeSession(shortNight(HOUR)).files);
    const run = await nightledger('report', session, '--out', join(session, 'frames/heron/Ha'));
    expect(run.status).toBe(2);
    expect(run.stderr).toContain('nothing is ever written there');
    // Frames farther down, and folders with the session's other files: what is written to is not read.
    for (const folderOfInputs of ['frames', 'frames/heron', 'logs']) {
      const refused = await nightledger('report', session, '--out', join(session, folderOfInputs), '--no-pdf');
      expect(refused.status, folderOfInputs).toBe(2);
      expect(existsSync(join(session, folderOfInputs, 'report.html'))).toBe(false);
    }
    for (const again of [1, 2]) {
      const inside = await nightledger(
        'report',
        session,
        '--out',
        join(session, 'report'),
        '--no-pdf',
        '-q',
        '--also',
        'summary',
      );
      expect(inside.status, String(again)).toBe(0);
    }
  });

  it('says in its help how it is used', async () => {
    const run = await nightledger('report', '--help');
    expect(run.status).toBe(0);
    expect(run.stdout).toContain('Examples:');
    expect((await nightledger('--help')).status).toBe(0);
    expect((await nightledger('--version')).stdout.trim()).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

describe('nightledger init', () => {
  it('writes a rig file that loads, tells the trains apart, and reports as well as without', async () => {
    const session = join(folder, 'starter');
    // Every other frame is enough to tell trains, filters and target.
    const files = [...writeSession(HEADERS_ONLY, { rig: false }).files].filter(
      ([path], i) => !path.endsWith('.fits') || i % 2 === 0,
    );
    writeFiles(session, new Map(files));
    expect((await nightledger('init', session)).status).toBe(0);
    const text = readFileSync(join(session, 'rig.yaml'), 'utf8');
    const { rig, warnings } = parseRig('rig.yaml', text);
    expect(warnings).toEqual([]);
    expect(rig.trains.map((t) => [t.id, t.role, t.focalLengthMm])).toEqual([
      ['heron', 'pilot', 480],
      ['wren', 'companion', 600],
    ]);
    expect(rig.site).toMatchObject({ latitudeDeg: 40.42, longitudeDeg: -1.12, elevationM: 1100 });
    expect(rig.targets.map((t) => t.name)).toEqual(['M 33']);
    expect(text).toContain('filters B, G, L, R');
    expect((await nightledger('report', session, '--out', join(folder, 'from-starter'), '--no-pdf', '-q')).status).toBe(
      0,
    );
  });

  it('never writes over an existing rig file', async () => {
    const session = join(folder, 'kept');
    writeFiles(session, new Map([...writeSession(HEADERS_ONLY).files, ['rig.yaml', 'mine']]));
    const run = await nightledger('init', session);
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('already exists');
    expect(readFileSync(join(session, 'rig.yaml'), 'utf8')).toBe('mine');
    const printed = await nightledger('init', session, '--print');
    expect(printed.status).toBe(0);
    expect(printed.stdout).toContain('trains:');
  });

  it('says so when there are no frames', async () => {
    const run = await nightledger('init', mkdtempSync(join(folder, 'bare-')));
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('holds no FITS files');
  });
});

describe('exports beside the report', () => {
  it('are the registry’s, by name', () => {
    expect([...EXPORTS]).toEqual(FORMATS.map((f) => f.id));
  });

  it('are written when asked for', async () => {
    const out = join(folder, 'also');
    expect(
      (await nightledger('report', hour, '--out', out, '--no-pdf', '-q', '--also', 'summary', 'frames')).status,
    ).toBe(0);
    expect(visible(out)).toEqual(['frames', 'frames.csv', 'night.json', 'report.html', 'summary.md']);
  });

  it('come all with a report to share, and tell nothing of home', async () => {
    const out = join(folder, 'shared');
    expect((await nightledger('report', hour, '--out', out, '--no-pdf', '-q', '--share')).status).toBe(0);
    expect(visible(out)).toEqual(['card.png', 'frames', 'frames.csv', 'night.json', 'report.html', 'summary.md']);
    for (const file of ['frames.csv', 'night.json', 'report.html', 'summary.md']) {
      // What is read, not the coordinates of a picture's parts.
      const text = readFileSync(join(out, file), 'utf8').replace(/<[^>]*>/g, ' ');
      for (const secret of ['40.42', '-1.12', '−1.12', 'Cierzo', 'frames/heron', 'logs/heron', ROOT])
        expect(text.includes(secret), `${secret} in ${file}`).toBe(false);
    }
  });

  it('are refused by a name that is none of theirs', async () => {
    expect((await nightledger('report', hour, '--out', join(folder, 'x'), '--also', 'poem')).status).toBe(2);
  });
});
