import { readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { warningsOf, type FrameStars, type Night } from '../../src/model/index.js';
import { nightOfRecord } from '../../src/again.js';
import { readNights } from '../../src/pipeline.js';
import { toRecord } from '../../src/record/index.js';
import { drawQuickly, scatter } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { sampleFolder, TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const SIDE = 288;
const STARS = scatter(seeded(4), { width: SIDE, height: SIDE }, 48, { from: 6_000, to: 60_000 });
const WRITTEN = new Date('2026-10-15T08:00:00Z');
/** Share of the light that each frame lets through: one stands in a cloud. */
const LIGHT = [1, 1, 1, 0.5, 1, 1] as const;

const BACKGROUND_ADU = 400;
const PEDESTAL_ADU = 100;
const ELECTRONS_PER_ADU = 1.6;
const READ_NOISE = 3;
const SECONDS = 300;

function nameOf(index: number): string {
  return `light_${index}.fits`;
}

/** A light with drawn stars, ten minutes after the one before it. */
function drawnLight(share: number, index: number, seconds: number): Buffer {
  const pixels = drawQuickly({
    width: SIDE,
    height: SIDE,
    stars: STARS.map((star) => ({ x: star.x + index, y: star.y, flux: star.flux * share })),
    shape: { profile: { kind: 'moffat', fwhm: 3, beta: 3.5 } },
    background: BACKGROUND_ADU,
    electronsPerAdu: ELECTRONS_PER_ADU,
    readNoise: READ_NOISE,
    seed: index + 1,
  });
  const cards = [
    ['IMAGETYP', 'LIGHT'],
    ['DATE-OBS', `2026-10-14T20:${index}0:00.000`],
    ['EXPTIME', seconds],
    ['OBJECT', 'NGC 281'],
    ['FILTER', 'Ha'],
    ['TELESCOP', 'heron'],
    ['FOCALLEN', 480],
    ['XPIXSZ', 3.76],
    ['EGAIN', ELECTRONS_PER_ADU],
    ['PEDESTAL', PEDESTAL_ADU],
  ] as const;
  return writeFits({ cards, width: SIDE, height: SIDE, bitpix: 16, pixels });
}

/** Lights of one train; drawn once. */
const FILES = LIGHT.map((share, index) => drawnLight(share, index, SECONDS));

function drawnSession(): string {
  const folder = tempFolder();
  for (const [index, file] of FILES.entries()) {
    const path = join(folder, nameOf(index));
    writeFileSync(path, file);
    utimesSync(path, WRITTEN, WRITTEN);
  }
  return folder;
}

let folder: string;
let cacheFolder: string;
beforeEach(() => {
  folder = drawnSession();
  cacheFolder = tempFolder();
});

async function measured(signal?: AbortSignal): Promise<Night> {
  const [night] = await readNights(folder, {
    nowMs: TEST_NOW_MS,
    stars: { by: 'strips', threads: 0, cacheFolder, signal },
  });
  if (!night) throw new Error('no night');
  return night;
}

function starsOf(night: Night): (FrameStars | undefined)[] {
  return night.accounts.lights.map(({ id }) => night.stars?.frames[id]);
}

/** Other bytes under the same name, size and time. */
function spoilUnseen(path: string): void {
  const { size } = statSync(path);
  writeFileSync(path, Buffer.concat([readFileSync(path).subarray(0, 2880), Buffer.alloc(size - 2880, 0x55)]));
  utimesSync(path, WRITTEN, WRITTEN);
}

describe('the stars of a night', () => {
  it('stand by frame, with the flux against the best of the group', async () => {
    const night = await measured();
    const stars = starsOf(night);
    for (const [index, one] of stars.entries()) {
      expect(one?.by).toBe('strips');
      // What was drawn; the uncertainty of the drawn frame is a few thousandths.
      expect(Math.abs((one?.fwhm ?? NaN) - 3)).toBeLessThan(0.15);
      expect(one?.flux).toBeCloseTo(LIGHT[index] ?? NaN, 1);
      expect(one?.background).toBeCloseTo(BACKGROUND_ADU, -1);
      // Electrons a second, the pedestal taken off; 1 ADU and 2 % for the wings of stars in the sky.
      const { background = NaN, noise = NaN } = one?.electronsPerSecond ?? {};
      const drawnLevel = ((BACKGROUND_ADU - PEDESTAL_ADU) * ELECTRONS_PER_ADU) / SECONDS;
      expect(Math.abs(background - drawnLevel)).toBeLessThan(ELECTRONS_PER_ADU / SECONDS);
      const drawnNoise = Math.sqrt(BACKGROUND_ADU * ELECTRONS_PER_ADU + READ_NOISE ** 2) / SECONDS;
      expect(Math.abs(noise / drawnNoise - 1)).toBeLessThan(0.02);
    }
    // Nothing is said of the measuring; that stars of 5″ are wide is.
    const said = warningsOf(night).flatMap(({ code }) => (code.startsWith('star') ? [code] : []));
    expect(said).toEqual(['stars-bad-all-night']);
  });

  it('are not called dimmed in a frame that was cut short: it gathered less light through no fault of the sky', async () => {
    const cut = LIGHT.indexOf(0.5);
    writeFileSync(join(folder, nameOf(cut)), drawnLight(0.5, cut, SECONDS / 2));
    const log = LIGHT.flatMap((_, index) => {
      const end =
        index === cut ? { minute: '2:30', event: 'exposure-abort' } : { minute: '5:00', event: 'exposure-end' };
      return [
        {
          at: `2026-10-14T20:${index}0:00Z`,
          event: 'exposure-begin',
          seconds: SECONDS,
          filter: 'Ha',
          target: 'NGC 281',
        },
        { at: `2026-10-14T20:${index}${end.minute}Z`, event: end.event },
      ];
    });
    writeFileSync(join(folder, 'night.jsonl'), log.map((line) => JSON.stringify(line)).join('\n'));
    writeFileSync(join(folder, 'rig.yaml'), 'trains: [ { id: heron, logs: [ { files: night.jsonl } ] } ]');
    const { causes } = (await measured()).accounts.lights[cut] ?? {};
    expect(causes?.map(({ kind }) => kind)).toEqual(['cut-short']);
  });

  it('lie on the reference of their field, each by as much as it was drawn aside', async () => {
    const night = await measured();
    const shifts = starsOf(night).map((one) => one?.shift);
    const first = shifts[0]?.x ?? NaN;
    for (const [index, shift] of shifts.entries()) {
      // Frame by frame the stars were drawn one pixel farther along x.
      expect(Math.abs((shift?.x ?? NaN) - first - index)).toBeLessThan(0.05);
      expect(Math.abs(shift?.rotation ?? NaN)).toBeLessThan(0.02);
    }
    expect(night.stars?.pointings).toMatchObject([
      {
        train: night.gathered.trains[0]?.id,
        target: 'NGC 281',
        registered: LIGHT.length,
        elsewhere: 0,
        unregistered: [],
      },
    ]);
    expect(night.stars?.pairs).toEqual([]);
  });

  it('go into the record, and come back from it', async () => {
    const night = await measured();
    const record = toRecord(night, '0.0.0');
    expect(record.frames.map((frame) => frame.stars?.fwhm)).toEqual(starsOf(night).map((one) => one?.fwhm));
    expect((await nightOfRecord(JSON.stringify(record))).night.stars).toEqual(JSON.parse(JSON.stringify(night.stars)));
  });

  it('are not measured twice', async () => {
    const first = await measured();
    for (let index = 0; index < LIGHT.length; index++) spoilUnseen(join(folder, nameOf(index)));
    expect((await measured()).stars).toEqual(first.stars);
  });

  it('are kept as far as they were measured when the work is interrupted', async () => {
    const stop = new AbortController();
    const [night] = await readNights(folder, {
      nowMs: TEST_NOW_MS,
      stars: {
        by: 'strips',
        threads: 0,
        cacheFolder,
        signal: stop.signal,
        onProgress: ({ done }) => (done === 2 ? stop.abort() : undefined),
      },
    });
    expect(Object.keys(night?.stars?.frames ?? {})).toHaveLength(2);
    expect(night?.accounts.lights).toHaveLength(LIGHT.length);
    expect(night?.stars?.warnings).toMatchObject([{ code: 'stars-interrupted', count: LIGHT.length - 2 }]);
  });

  it('leave out what cannot be read, and say so', async () => {
    const path = join(folder, nameOf(2));
    writeFileSync(path, readFileSync(path).subarray(0, 20_000));
    const night = await measured();
    expect(starsOf(night).map((one) => one !== undefined)).toEqual([true, true, false, true, true, true]);
    expect(night.stars?.warnings).toMatchObject([{ code: 'stars-not-measured', count: 1 }]);
    expect(night.stars?.warnings[0]?.message).toContain(nameOf(2));
  });

  it('are none in frames too small for a field of stars, without a word', async () => {
    const [night] = await readNights(sampleFolder('headers-only'), {
      nowMs: TEST_NOW_MS,
      stars: { by: 'strips', threads: 0 },
    });
    expect(night?.stars).toEqual({ frames: {}, pointings: [], pairs: [], warnings: [] });
  });

  it('are not looked for unless asked', async () => {
    const [night] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    expect(night?.stars).toBeNull();
  });
});
