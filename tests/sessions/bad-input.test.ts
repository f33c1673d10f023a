import { chmodSync, copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readNights, writeReports } from '../../src/pipeline.js';
import { drawBy } from '../../src/report/charts/thread.js';
import { toRecord } from '../../src/record/index.js';
import { undrawn } from '../support/drawn-once.js';
import { writeFits, type CardInput } from '../support/fits-writer.js';
import { writeFiles } from '../support/generator/samples.js';
import { HERON } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { warningsOf, type Night, type Warning } from '../../src/model/index.js';

/** A short sound night to spoil. */
const sound = writeSession(
  shortNight({ name: 'sound', begin: '2026-10-14T19:00:00.000Z', end: '2026-10-14T20:30:00.000Z' }),
);
const SOUND_FRAMES = sound.truth.totals.reduce((s, t) => s + t.frames.taken, 0);

// Its pages are read for their words.
beforeAll(() => void drawBy(undrawn));

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'nightledger-bad-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function report(spoil: SessionFiles = new Map()) {
  writeFiles(folder, new Map([...sound.files, ...spoil]));
  const nights = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  return { nights, record: toRecord(nights[0]!, 'test') };
}

const light = (more: CardInput[]): Buffer =>
  writeFits({
    width: 4,
    height: 4,
    bitpix: 16,
    cards: [['IMAGETYP', 'LIGHT'], ['OBJECT', 'NGC 281'], ['FILTER', 'Ha'], ...more],
  });

const firstFrame = [...sound.files].find(([path]) => path.startsWith('frames/heron/'))![1] as Buffer;

/** What is said of the only night. */
const reported = (night: Night | undefined): readonly Warning[] => (night ? warningsOf(night) : []);

describe('a night with something wrong in it is still reported', () => {
  it.each<[string, Buffer | string]>([
    ['a FITS file cut in its header', firstFrame.subarray(0, 1500)],
    ['a text file named .fits', 'Dear diary,\nthe night was clear.\n'],
    ['a file of no bytes', Buffer.alloc(0)],
    [
      'an absurd NAXIS',
      light([
        ['DATE-OBS', '2026-10-14T21:30:00'],
        ['EXPTIME', 60],
      ]).fill('NAXIS   =                 9999'.padEnd(80), 160, 240),
    ],
    ['random bytes', Buffer.from(Array.from({ length: 9000 }, (_, i) => (i * 7919) % 256))],
  ])('%s costs that file and a warning that names it', async (_what, content) => {
    const { record } = await report(new Map([['frames/heron/bad.fits', content]]));
    expect(record.frames.filter((f) => f.file !== 'frames/heron/bad.fits')).toHaveLength(SOUND_FRAMES);
    expect(record.warnings.some((w) => `${w.message} ${w.source ?? ''}`.includes('frames/heron/bad.fits'))).toBe(true);
  });

  it('a non-numeric exposure is reported and not counted', async () => {
    const { record } = await report(
      new Map([
        [
          'frames/heron/nan.fits',
          light([
            ['DATE-OBS', '2026-10-14T21:30:00'],
            ['EXPTIME', 'NaN'],
          ]),
        ],
      ]),
    );
    expect(record.totals.reduce((s, t) => s + t.frames.taken, 0)).toBe(SOUND_FRAMES);
    expect(record.warnings.some((w) => w.source?.startsWith('frames/heron/nan.fits'))).toBe(true);
  });

  it('a date in the future is reported', async () => {
    const { nights } = await report(
      new Map([
        [
          'frames/heron/future.fits',
          light([
            ['DATE-OBS', '2031-01-01T00:00:00'],
            ['EXPTIME', 60],
          ]),
        ],
      ]),
    );
    expect(nights.map((n) => n.date)).toContain('2026-10-14');
    expect(
      nights.some((n) =>
        warningsOf(n).some((w) => w.source?.file === 'frames/heron/future.fits' && /future/.test(w.message)),
      ),
    ).toBe(true);
  });

  it('copies of a frame count once and are reported', async () => {
    const { record } = await report(new Map([['frames/heron/copy/again.fits', firstFrame]]));
    expect(record.totals.reduce((s, t) => s + t.frames.taken, 0)).toBe(SOUND_FRAMES);
    expect(record.warnings.filter((w) => w.code === 'duplicate-frame')).toHaveLength(1);
  });

  it('a light whose file is cut off in its pixels is lost, and the whole copy counts where there is one', async () => {
    const [path, bytes] = [...sound.files].find(([name]) => name.startsWith('frames/heron/'))! as [string, Buffer];
    // 2880 bytes a block (FITS Standard 4.0, 3.1); the last block has the pixels.
    const cut = new Map([[path, bytes.subarray(0, bytes.length - 2880)]]);
    const verdictOf = (record: Awaited<ReturnType<typeof report>>['record']) =>
      record.frames.filter(({ file }) => file?.endsWith(path.split('/').at(-1)!)).map(({ verdict }) => verdict);
    const asIs = verdictOf((await report()).record);
    expect(asIs).toEqual(['kept']);
    const { record } = await report(cut);
    expect(verdictOf(record)).toEqual(['lost']);
    expect(record.frames.find(({ file }) => file === path)?.causes[0]).toMatchObject({ kind: 'cut-short' });
    expect(
      verdictOf((await report(new Map([...cut, [`frames/heron/whole/${path.split('/').at(-1)}`, bytes]]))).record),
    ).toEqual(asIs);
  });

  it('a broken log line costs that line', async () => {
    const log = String(sound.files.get('logs/heron.jsonl')).split('\n');
    log.splice(20, 0, '{"at":"2026-10-14T19:', 'not json at all');
    const { record } = await report(new Map([['logs/heron.jsonl', log.join('\n')]]));
    expect(record.totals.reduce((s, t) => s + t.frames.taken, 0)).toBe(SOUND_FRAMES);
    expect(record.warnings.some((w) => w.source === 'logs/heron.jsonl:21')).toBe(true);
  });

  it('a log of another program without a dialect is reported once, with what to do', async () => {
    const { nights } = await report(new Map([['logs/heron.jsonl', 'shutter opens\nshutter shut\n'.repeat(50)]]));
    const [about, ...more] = reported(nights[0]).filter(({ source }) => source?.file === 'logs/heron.jsonl');
    expect(about?.code).toBe('log-without-dialect');
    expect(about?.message).toContain('none of the 100 lines of logs/heron.jsonl (heron)');
    expect(more).toEqual([]);
  });

  it('a missing log is reported', async () => {
    writeFiles(folder, sound.files);
    rmSync(join(folder, 'logs/wren.jsonl'));
    const [night] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    expect(reported(night).some((w) => w.code === 'log-not-found' && w.message.includes('logs/wren.jsonl'))).toBe(true);
    expect(night?.accounts.lights).toHaveLength(SOUND_FRAMES);
  });

  it.each([
    ['of events that is empty', 'logs/heron.jsonl', '', 'logs/heron.jsonl (heron) is empty'],
    ['of guiding that is a head alone', 'logs/guiding.csv', 'at,ra_arcsec,dec_arcsec\n', 'holds no guiding sample'],
  ])('a log %s is reported', async (_, file, text, message) => {
    const { nights } = await report(new Map([[file, text]]));
    const [about, ...more] = reported(nights[0]).filter(({ source }) => source?.file === file);
    expect(about).toMatchObject({ code: 'log-says-nothing', message: expect.stringContaining(message) as string });
    expect(more).toEqual([]);
    expect(nights[0]?.accounts.lights).toHaveLength(SOUND_FRAMES);
  });

  /** Guiding samples every ten seconds from 19:00 UTC on, with what stands behind their times. */
  const samples = (zone: string) =>
    `at,ra_arcsec,dec_arcsec\n${Array.from({ length: 300 }, (_, i) => {
      const at = new Date(Date.UTC(2026, 9, 14, 19) + i * 10_000).toISOString();
      return `${at.replace('Z', zone)},${i % 2 ? 0.4 : -0.4},0.1\n`;
    }).join('')}`;

  it('guiding samples without a zone are reported once, with the first line and what to do', async () => {
    const { nights } = await report(new Map([['logs/guiding.csv', samples('')]]));
    const [about, ...more] = reported(nights[0]).filter(({ source }) => source?.file === 'logs/guiding.csv');
    expect(about).toMatchObject({ code: 'log-without-dialect', count: 301, source: { line: 2 } });
    expect(about?.message).toContain('nightledger dialect draft "logs/guiding.csv"');
    expect(about?.message).toContain('Line 2 was left out: "at" must be a time with offset');
    expect(more).toEqual([]);
  });

  it('guiding samples among a train’s logs are read as what they are, with a notice', async () => {
    const { nights } = await report(new Map([['logs/heron.jsonl', samples('Z')]]));
    const [about, ...more] = reported(nights[0]).filter(({ source }) => source?.file === 'logs/heron.jsonl');
    expect(about).toMatchObject({
      code: 'guiding-log-misplaced',
      message: expect.stringContaining('is listed among the logs of heron') as string,
    });
    expect(more).toEqual([]);
    expect(nights[0]?.gathered.guiding?.atMs).toHaveLength(300);
  });

  it('logs that stand under each other’s train are read as those of the trains whose frames they name', async () => {
    const [heron, wren] = ['heron', 'wren'].map((id) => String(sound.files.get(`logs/${id}.jsonl`)));
    const { nights, record } = await report(
      new Map([
        ['logs/heron.jsonl', wren ?? ''],
        ['logs/wren.jsonl', heron ?? ''],
      ]),
    );
    expect(reported(nights[0]).filter(({ code }) => code === 'log-of-other-train')).toHaveLength(2);
    const taken = (totals: readonly { train: string; filter: string; frames: { taken: number } }[]): string[] =>
      totals.map(({ train, filter, frames }) => `${train} ${filter} ${frames.taken}`).sort();
    expect(taken(record.totals)).toEqual(taken(sound.truth.totals));
  });

  it('clocks that disagree are measured and reported', async () => {
    const late = String(sound.files.get('logs/wren.jsonl'))
      .split('\n')
      .filter((l) => l !== '')
      .map((l) => JSON.parse(l) as { at: string })
      .map((e) => JSON.stringify({ ...e, at: new Date(Date.parse(e.at) + 41_000).toISOString() }))
      .join('\n');
    const { record } = await report(new Map([['logs/wren.jsonl', late]]));
    const warning = record.warnings.find((w) => w.code === 'clock-offset');
    expect(warning?.message).toMatch(/wren.*41\.0 s/);
  });

  it('names that would break a template stand in the page as text', async () => {
    const name = '<script>alert(1)</script>{{constructor}}{{{x}}}';
    writeFiles(
      folder,
      new Map([
        ...sound.files,
        [
          'frames/heron/evil.fits',
          light([
            ['DATE-OBS', '2026-10-14T20:45:00'],
            ['EXPTIME', 60],
            ['OBJECT', name],
          ]),
        ],
      ]),
    );
    const nights = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    const out = join(folder, 'report');
    const { readFileSync } = await import('node:fs');
    await writeReports(nights, { out, pdf: false, paper: 'a4', share: false, nowMs: TEST_NOW_MS, version: 'test' });
    const html = readFileSync(join(out, 'report.html'), 'utf8');
    expect(html).not.toContain('<script>alert');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  });

  it.skipIf(process.getuid?.() === 0)('an unreadable file is reported', async () => {
    writeFiles(folder, sound.files);
    chmodSync(join(folder, 'logs/wren.jsonl'), 0o000);
    const [night] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    expect(reported(night).some((w) => w.source?.file === 'logs/wren.jsonl')).toBe(true);
  });
});

describe('a night that cannot be trusted is refused', () => {
  it('when two trains claim one frame, naming it', async () => {
    const rig = String(sound.files.get('rig.yaml')).replace('frames/wren/**/*.fits', 'frames/**/*.fits');
    await expect(report(new Map([['rig.yaml', rig]]))).rejects.toThrow(
      /frames\/heron\/Ha\/heron_NGC281_Ha_0001\.fits is claimed by the trains heron and wren/,
    );
  });
  it('when the rig file is broken, naming line and fix', async () => {
    const rig = String(sound.files.get('rig.yaml')).replace('role: companion', 'role: passenger');
    await expect(report(new Map([['rig.yaml', rig]]))).rejects.toThrow(/rig\.yaml:\d+: trains#2\.role must be pilot/);
  });
  it('when the folder is missing', async () => {
    await expect(readNights(join(folder, 'nowhere'), { nowMs: TEST_NOW_MS, replay: null })).rejects.toThrow(/nowhere/);
  });
});

describe('a folder with several nights', () => {
  it('makes one night of each, noon to noon', async () => {
    const later = writeSession(
      shortNight({
        name: 'later',
        seed: 6,
        begin: '2026-10-16T19:00:00.000Z',
        end: '2026-10-16T19:40:00.000Z',
        trains: [{ ...HERON, plan: [{ target: 'NGC 281', filter: 'OIII', seconds: 120, count: 9 }] }],
      }),
    );
    const frames = [...later.files].filter(([path]) => path.startsWith('frames/'));
    const { nights } = await report(new Map(frames));
    expect(nights.map((n) => n.date)).toEqual(['2026-10-14', '2026-10-16']);
    const out = join(folder, 'report');
    const written = await writeReports(nights, {
      out,
      pdf: false,
      paper: 'a4',
      share: false,
      nowMs: TEST_NOW_MS,
      version: 'test',
    });
    expect(written.files).toContain(join(out, '2026-10-16', 'report.html'));
  });
});

describe('frames without a rig file', () => {
  it('are distinguished by folder when headers say nothing', async () => {
    for (const [i, folderName] of (['east', 'west'] as const).entries()) {
      mkdirSync(join(folder, folderName), { recursive: true });
      for (let n = 0; n < 4; n++) {
        writeFileSync(
          join(folder, folderName, `${n}.fits`),
          light([
            ['DATE-OBS', new Date(Date.UTC(2026, 9, 14, 20, 5 * n, i)).toISOString().slice(0, 23)],
            ['EXPTIME', 200],
          ]),
        );
      }
    }
    const [night] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    expect(night?.gathered.trains.map((t) => t.id).sort()).toEqual(['east', 'west']);
    expect(night?.sky.almanac).toBeNull();
    copyFileSync(join(folder, 'east/0.fits'), join(folder, 'east/9.fits'));
    const [again] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    expect(again?.accounts.lights).toHaveLength(8);
  });
});
