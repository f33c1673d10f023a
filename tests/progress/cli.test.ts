import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { HERON, WREN } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { smallLight } from '../hostile/support/small-light.js';
import { sampleFolder } from '../support/sample-night.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'nightledger-archive-'));

const nightledger = (...args: string[]) => nightledgerIn(folder, ...args);

/** Two hours of a night, in the three filters that its goals are for. */
const session = join(folder, 'session');
writeFiles(
  session,
  writeSession(
    shortNight({
      begin: '2026-10-14T19:30:00.000Z',
      end: '2026-10-14T21:20:00.000Z',
      trains: [HERON, WREN].map((train) => ({
        ...train,
        plan: ['Ha', 'OIII', 'SII'].map((filter) => ({ target: 'NGC 281', filter, seconds: 300, count: 7 })),
      })),
    }),
  ).files,
);

const json = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('nightledger report --archive', () => {
  const archive = join(folder, 'kept');

  it('keeps the night, and says so on stderr', async () => {
    const run = await nightledger('report', session, '--out', join(folder, 'night'), '--no-pdf', '--archive', archive);
    expect(run.status).toBe(0);
    expect(run.stderr).toContain('2026-10-14.json of the archive: a new night');
    expect(run.stdout.trim().split('\n')).toEqual([
      join(folder, 'night/report.html'),
      join(folder, 'night/night.json'),
      join(folder, 'night/frames.csv'),
      join(folder, 'night/frames'),
    ]);
    expect(readdirSync(archive)).toEqual(['.index', '2026-10-14.json']);
    expect(json(join(archive, '2026-10-14.json'))).toMatchObject({
      schema: 'nightledger/night/1',
      night: '2026-10-14',
      archive: {
        report: '../night/report.html',
        minimumAltitude: 25,
        goals: [{ name: 'NGC 281', hours: { Ha: 12, OIII: 12, SII: 12 } }],
      },
    });
    expect(json(join(folder, 'night/night.json'))).not.toHaveProperty('archive');
  });

  it('changes nothing when it is done again', async () => {
    const before = readFileSync(join(archive, '2026-10-14.json'));
    expect(
      (await nightledger('report', session, '--out', join(folder, 'night'), '--no-pdf', '--archive', archive)).stderr,
    ).toContain('as it was');
    expect(readFileSync(join(archive, '2026-10-14.json')).equals(before)).toBe(true);
  });

  it('is shown by progress, with a link to the report', async () => {
    const out = join(folder, 'pages/progress');
    const run = await nightledger('progress', archive, '--out', out, '--no-pdf');
    expect(run.status).toBe(0);
    expect(run.stdout.trim().split('\n')).toEqual([join(out, 'progress.html'), join(out, 'progress.json')]);
    expect(readFileSync(join(out, 'progress.html'), 'utf8')).toContain('href="../../night/report.html"');
    expect(json(join(out, 'progress.json'))).toMatchObject({
      schema: 'nightledger/progress/1',
      targets: [
        {
          target: 'NGC 281',
          lines: [{ filter: 'Ha', goalSeconds: 43_200 }, {}, {}],
          nights: [{ night: '2026-10-14', report: '../../night/report.html' }],
        },
      ],
    });
  });

  it('shared, tells neither site nor links', async () => {
    const out = join(folder, 'shared');
    await nightledger('progress', archive, '--out', out, '--no-pdf', '--share');
    for (const name of ['progress.html', 'progress.json']) {
      const text = readFileSync(join(out, name), 'utf8');
      expect(text).not.toContain('Cierzo');
      expect(text).not.toContain('report.html');
      expect(text).not.toContain('40.42');
    }
  });
});

describe('the first screen of a night that goes into an archive', () => {
  const archive = join(folder, 'autumn');
  /** Label and value of each goal bar of the reported page. */
  const barsOf = (out: string): string[] => {
    const html = readFileSync(join(folder, out, 'report.html'), 'utf8').replaceAll('\u00a0', ' ');
    const lines = /<div class="goals-tonight".*?<\/div>\n?<\/section>/s.exec(html)?.[0] ?? '';
    return [...lines.matchAll(/<dt>(.*?)<\/dt><dd>(.*?)<\/dd>/g)].map(([, label, value]) => `${label}: ${value}`);
  };
  /** Hours kept of NGC 281 through a filter, by the records themselves. */
  const keptHours = (filter: string, records: readonly string[]): number =>
    records
      .flatMap((path) => (json(path) as { totals: Total[] }).totals)
      .filter((total) => total.target === 'NGC 281' && total.filter === filter)
      .reduce((sum, { seconds }) => sum + seconds.kept / 3600, 0);
  interface Total {
    readonly target: string;
    readonly filter: string;
    readonly seconds: { readonly kept: number };
  }
  const again = (out: string) =>
    nightledger('report', 'night/night.json', '--out', out, '--no-pdf', '--archive', archive);

  it('counts the nights before it, not those after it, towards the goals of the archive', async () => {
    expect(barsOf('night').join('; ')).toMatch(/^Ha: 1\.2 h of 12\.0 h, 10 %;/);
    cpSync(sampleFolder('autumn-archive'), archive, { recursive: true });
    expect((await again('with-archive')).status).toBe(0);
    const before = ['2026-09-27', '2026-10-02'].map((date) => join(archive, `${date}.json`));
    for (const [filter, goal] of [
      ['Ha', 20],
      ['OIII', 25],
      ['SII', 20],
    ] as const) {
      const own = keptHours(filter, [join(folder, 'night/night.json')]);
      const all = own + keptHours(filter, before);
      const added = filter === 'SII' ? '' : `, +${own.toFixed(1)} h`;
      expect(barsOf('with-archive')).toContain(
        `${filter}${added}: ${all.toFixed(1)} h of ${goal}.0 h, ${Math.round((100 * all) / goal)} %`,
      );
    }
  });

  it('counts the night once where it is in the archive already, and alone where the goals cannot be read', async () => {
    expect((await again('once-more')).status).toBe(0);
    expect(barsOf('once-more')).toEqual(barsOf('with-archive'));
    writeFileSync(join(archive, 'goals.yaml'), 'targets: [ { name: 12');
    const run = await again('bad-goals');
    expect(run.status).toBe(0);
    expect(run.stderr).toContain('goals count this night alone');
    expect(barsOf('bad-goals')).toEqual(barsOf('night'));
  });
});

describe('nightledger archive add', () => {
  it('adds past nights from their frames, and reads nothing twice', async () => {
    const archive = join(folder, 'imported');
    const first = await nightledger('archive', 'add', sampleFolder('headers-only'), '--archive', archive);
    expect(first).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/FITS files; \d+ headers read; nights: 1 new/),
    });
    expect((await nightledger('archive', 'add', sampleFolder('headers-only'), '--archive', archive)).stdout).toMatch(
      /; 0 headers read; nights: 0 new, 0 merged, 0 changed/,
    );
    expect(readdirSync(archive).sort()).toEqual(['.index', '2026-11-09.json']);
    expect(first.stderr).not.toContain('--rig');
  });

  it('counts no train on nights on which it took no frame: its camera was another then', async () => {
    const light = (date: string, minute: number, camera: string, focal: number): Buffer =>
      smallLight(`${date}T21:${String(minute).padStart(2, '0')}:00`, 300, [
        ['TELESCOP', 'heron'],
        ['INSTRUME', camera],
        ['FOCALLEN', focal],
        ['SITELAT', 40.42],
        ['SITELONG', -1.12],
      ]);
    const nights = ['2026-10-02', '2026-10-03', '2026-10-05'].flatMap((date, i) =>
      [0, 6, 12].map((minute): [string, Buffer] => [
        `${date}/${minute}.fits`,
        light(date, minute, i < 2 ? 'mono 9 MP' : 'mono 26 MP', i < 2 ? 480 : 600),
      ]),
    );
    writeFiles(join(folder, 'two cameras'), new Map(nights));
    const archive = join(folder, 'of two cameras');
    expect((await nightledger('archive', 'add', join(folder, 'two cameras'), '--archive', archive)).status).toBe(0);
    const trainsOf = (date: string) => (json(join(archive, `${date}.json`)) as { trains: { id: string }[] }).trains;
    expect(trainsOf('2026-10-02').map(({ id }) => id)).toHaveLength(1);
    expect(trainsOf('2026-10-05').map(({ id }) => id)).toHaveLength(1);
    expect(trainsOf('2026-10-05')[0]?.id).not.toBe(trainsOf('2026-10-02')[0]?.id);
  });

  it('says that a rig file in the folder is not used, and what uses it', async () => {
    const session = join(folder, 'with-rig');
    cpSync(sampleFolder('headers-only'), session, { recursive: true });
    writeFileSync(join(session, 'rig.yaml'), 'trains: []');
    const { status, stderr } = await nightledger('archive', 'add', session, '--archive', join(folder, 'by-headers'));
    expect(status).toBe(0);
    expect(stderr).toContain(`--rig ${join(session, 'rig.yaml')} takes trains, site and targets from it`);
  });

  it.each([
    [['archive', 'add', sampleFolder('headers-only')], 2],
    [['archive', 'add', '/no/such/folder', '--archive', 'x'], 2],
    [
      [
        'archive',
        'add',
        sampleFolder('headers-only'),
        '--archive',
        join(sampleFolder('twin-night'), 'frames/heron/Ha'),
      ],
      2,
    ],
    [['archive', 'add', sampleFolder('headers-only'), '--archive', 'x', '--rig', 'no-such.yaml'], 2],
    [['archive', 'add', join(ROOT, 'schema'), '--archive', 'y'], 1],
  ])('%j ends with %i', async (args, status) => {
    const run = await nightledger(...args);
    expect(run.status, run.stdout + run.stderr).toBe(status);
    expect(run.stderr).not.toBe('');
  });
});

describe('nightledger progress', () => {
  it('ends with 1 for an archive without nights, and says what makes one', async () => {
    const empty = mkdtempSync(join(folder, 'empty-'));
    const run = await nightledger('progress', empty, '--out', join(folder, 'none'));
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('nightledger report SESSION --archive');
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });

  it('ends with 1 for goals that cannot be read, naming file and line', async () => {
    const archive = mkdtempSync(join(folder, 'goals-'));
    writeFileSync(
      join(archive, '2026-10-14.json'),
      readFileSync(join(sampleFolder('autumn-archive'), '2026-09-08.json')),
    );
    writeFileSync(join(archive, 'goals.yaml'), 'targets:\n  - { name: NGC 281, goals: { Ha: much } }\n');
    const run = await nightledger('progress', archive, '--out', join(folder, 'none'));
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('goals.yaml:2: targets#1.goals.Ha must be hours');
  });

  it.each([
    [['progress']],
    [['progress', '.']],
    [['progress', '/no/such/archive', '--out', 'x']],
    [['progress', '.', '--out', 'x', '--from', '2026-02-30']],
    [['progress', join(ROOT, 'package.json'), '--out', 'x']],
  ])('%j is wrong usage', async (args) => {
    expect(await nightledger(...args)).toMatchObject({ status: 2, stderr: expect.stringMatching(/\S/) });
  });

  it('looks ahead from the given evening', async () => {
    const out = join(folder, 'from');
    expect(
      (await nightledger('progress', sampleFolder('autumn-archive'), '--out', out, '--no-pdf', '--from', '2027-05-01'))
        .status,
    ).toBe(0);
    expect(json(join(out, 'progress.json'))).toMatchObject({
      outlook: {
        from: '2027-05-01',
        targets: expect.arrayContaining([
          expect.objectContaining({
            target: 'M 33',
            season: {
              state: 'later',
              from: expect.stringMatching(/^2027-0[67]/),
              until: expect.stringMatching(/^2028-0[23]/),
            },
          }),
        ]),
      },
    });
    expect(readFileSync(join(out, 'progress.html'), 'utf8')).toContain('not this season: back from');
  });
});
