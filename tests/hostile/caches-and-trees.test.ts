/** What lies where nightledger remembers and sorts: entries that were tampered with, links, and names of frames. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readManifest } from '../../src/sorting/manifest.js';
import { StarCache } from '../../src/stars/cache.js';
import type { FrameMeasurement, FrameToMeasure } from '../../src/stars/types.js';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { spoilt } from './support/spoilt.js';
import { runs } from '../support/runs.js';

cleanUp();

const HOUR = { begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T20:30:00.000Z' };

const FRAME: FrameToMeasure = { id: 'a', path: '/frames/a.fits', sizeBytes: 2880, changedMs: 1 };
const MEASURED: FrameMeasurement = {
  stars: {
    by: 'full',
    count: 1,
    fwhm: 3,
    fwhmUncertainty: 0.1,
    halfFlux: 1.5,
    elongation: 1.1,
    direction: 20,
    agreement: 0.2,
    background: 500,
    noise: 7,
    flux: null,
    saturated: 0,
    shift: null,
    uncertainties: {
      halfFlux: 0.05,
      direction: 2,
      background: 0.3,
      noise: 0.1,
      flux: null,
    },
  },
  list: {
    width: 640,
    height: 512,
    stars: [{ x: 1, y: 2, flux: 9, snr: 20, fwhm: 3, halfFlux: 1.5, elongation: 1.1, direction: 20, saturated: false }],
  },
};

/** A cache with one entry, and its file. */
function cacheWithEntry(): { cache: StarCache; folder: string; file: string } {
  const folder = tempFolder();
  const cache = new StarCache(folder);
  expect(cache.write(FRAME, 'full', MEASURED)).toBe(true);
  const inside = join(folder, readdirSync(folder)[0] ?? '');
  return { cache, folder: inside, file: join(inside, readdirSync(inside)[0] ?? '') };
}

const signed = (body: string): string => `${createHash('sha256').update(body).digest('hex')}\n${body}`;

describe('the cache of star measurements', () => {
  it('gives back what it was given, and no entry that was made to look like one', () => {
    const { cache, file } = cacheWithEntry();
    expect(cache.read(FRAME, 'full')).toEqual(MEASURED);
    for (const poison of [
      null,
      [],
      { stars: null, list: null },
      { ...MEASURED, list: { ...MEASURED.list, width: 1e12 } },
      { ...MEASURED, list: { ...MEASURED.list, stars: [{ x: '<script>' }] } },
      { ...MEASURED, stars: { ...MEASURED.stars, fwhm: '3' } },
      { ...MEASURED, stars: { ...MEASURED.stars, uncertainties: { halfFlux: '<b>' } } },
      { reason: 'x'.repeat(100_000) },
    ]) {
      writeFileSync(file, signed(JSON.stringify(poison)));
      expect(cache.read(FRAME, 'full')).toBeUndefined();
    }
  });

  it('answers or forgets whatever stands in an entry', () => {
    const { cache, file } = cacheWithEntry();
    fc.assert(
      fc.property(spoilt(MEASURED), (entry) => {
        writeFileSync(file, signed(JSON.stringify(entry) ?? ''));
        const read = cache.read(FRAME, 'full');
        if (read !== undefined && 'list' in read) expect(read.list.width).toBeLessThanOrEqual(1_000_000);
      }),
      runs(150),
    );
  });

  it.skipIf(process.platform === 'win32')(
    'waits for no pipe, and removes no file of others in a folder it was led to',
    () => {
      const { cache, folder, file } = cacheWithEntry();
      rmSync(file);
      spawnSync('mkfifo', [file]);
      expect(cache.read(FRAME, 'full')).toBeUndefined();
      writeFiles(folder, new Map(['IMG_0001.fits', 'diary.json'].map((name) => [name, 'mine'] as const)));
      cache.prune(0);
      expect(readdirSync(folder).sort()).toEqual(['IMG_0001.fits', 'diary.json']);
    },
  );
});

describe.skipIf(process.platform === 'win32')('a tree that frames are sorted into', () => {
  it('is not left through a link that leads among the frames', async () => {
    const [session, tree] = [tempFolder(), tempFolder()];
    writeFiles(session, writeSession(shortNight(HOUR)).files);
    const sort = () => nightledgerIn(session, 'sort', '.', '--into', tree, '--stars', 'off');
    expect((await sort()).status).toBe(0);
    const [target] = readdirSync(tree, { withFileTypes: true }).flatMap((e) => (e.isDirectory() ? [e.name] : []));
    rmSync(join(tree, target ?? ''), { recursive: true });
    symlinkSync(join(session, 'frames'), join(tree, target ?? ''));
    const before = readdirSync(join(session, 'frames'), { recursive: true });
    const run = await sort();
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('leads out of the tree');
    expect(readdirSync(join(session, 'frames'), { recursive: true })).toEqual(before);
  });

  it('holds names that every system takes, whatever frames and logs are called', async () => {
    const [session, tree, outside] = [tempFolder(), join(tempFolder(), 'tree'), tempFolder()];
    const { files } = writeSession(shortNight(HOUR));
    const frames = [...files].filter(([name]) => /heron.*\.fits$/.test(name));
    const odd = ['a\x1b[2J.fits', '..fits', 'con.fits', 'two\nlines.fits', '‮gnp.fits', `${'ü'.repeat(120)}.fits`];
    writeFiles(
      session,
      new Map([
        ...[...files].filter(([name]) => !name.endsWith('.fits')),
        ...odd.map((name, i) => [`frames/heron/${name}`, frames[i]?.[1] ?? ''] as const),
        ...frames.slice(odd.length),
      ]),
    );
    writeFiles(outside, new Map([['secret.fits', frames.at(-1)?.[1] ?? '']]));
    symlinkSync(join(outside, 'secret.fits'), join(session, 'frames/heron/link.fits'));
    const run = await nightledgerIn(session, 'sort', '.', '--into', tree, '--stars', 'off', '--copy', '--untrusted');
    expect(run.status, run.stderr).toBe(0);
    const names = readdirSync(tree, { recursive: true, encoding: 'utf8' });
    expect(names.length).toBeGreaterThan(odd.length);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    expect(names.filter((name) => /[\x00-\x1f\x7f-\x9f\u202e]|(^|\/)(\.\.|con\.)|secret|link/.test(name))).toEqual([]);
  });

  it('takes no file that a log names outside of the session', async () => {
    const [session, tree] = [tempFolder(), join(tempFolder(), 'tree')];
    const secret = join(tempFolder(), 'secret.fits');
    writeFileSync(secret, 'secret');
    const at = (minute: number) => `2026-10-14T21:${String(minute).padStart(2, '0')}:00Z`;
    writeFiles(
      session,
      new Map([
        ['rig.yaml', 'trains: [ { id: heron, frames: [ "*.fits" ], logs: [ { files: "*.jsonl" } ] } ]\n'],
        [
          'heron.jsonl',
          [
            { at: at(0), event: 'exposure-begin', seconds: 60, target: '../../up', filter: '..' },
            { at: at(1), event: 'exposure-end' },
            { at: at(1), event: 'frame-saved', file: secret },
            { at: at(2), event: 'exposure-begin', seconds: 60 },
            { at: at(3), event: 'exposure-end' },
            { at: at(3), event: 'frame-saved', file: '../../../../etc/hostname' },
          ]
            .map((event) => JSON.stringify(event))
            .join('\n'),
        ],
      ]),
    );
    await nightledgerIn(session, 'sort', '.', '--into', tree, '--stars', 'off', '--copy');
    const sorted = existsSync(tree) ? readdirSync(tree, { recursive: true, encoding: 'utf8' }) : [];
    expect(sorted.filter((name) => !/^sorted-.*\.json$/.test(name))).toEqual([]);
  });

  it('may hold a manifest of anything: what cannot be one is not believed', () => {
    const manifest = {
      schema: 'nightledger/sorted/1',
      files: [{ file: 'M-33/a.fits', source: 'a.fits', as: 'kept', how: 'copy', sha256: 'ab', bytes: 1, changedMs: 1 }],
    };
    const tree = tempFolder();
    mkdirSync(join(tree, 'x'));
    const name = `sorted-2026-10-14-${createHash('sha256').update('/s').digest('hex').slice(0, 8)}.json`;
    fc.assert(
      fc.property(spoilt(manifest), (value) => {
        writeFileSync(join(tree, name), JSON.stringify(value) ?? '');
        for (const [file, known] of readManifest(tree, '2026-10-14', '/s'))
          expect([typeof file, typeof known.sha256, typeof known.bytes]).toEqual(['string', 'string', 'number']);
      }),
      runs(100),
    );
    expect(readFileSync(join(tree, name)).length).toBeGreaterThanOrEqual(0);
  });
});
