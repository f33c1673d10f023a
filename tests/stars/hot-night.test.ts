import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { drawQuickly, type DrawnStar } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

/** As stored: 2 × 2 pixels of the sensor to one. */
const SIZE = { width: 480, height: 400 };
const FRAMES = 22;
/** One in 64 as stored: one in 256 of the sensor’s pixels glows, as on a warm one (common practice, no source). */
const HOT = 3000;
/** px as stored; dew draws stars out as it takes their light. */
const FWHM = 1.4;
const DEW_FROM = 6;
const DEW_FRAMES = 12;
/** What is left of the light in the end. */
const DEWED = 0.15;
const SECONDS = 300;
const EVERY_MS = 310_000;
const BEGIN_MS = Date.parse('2026-10-14T20:00:00Z');

/** How far the dew has come on a train, 0 to 1. */
function dewOn(train: string, n: number): number {
  return train === 'wren' ? Math.max(0, Math.min(1, (n - DEW_FROM) / DEW_FRAMES)) : 0;
}

/** Share of the light that comes through. */
function lightOn(train: string, n: number): number {
  return 1 - (1 - DEWED) * dewOn(train, n);
}

/** Stars all over what the dithers reach; few bright ones, many faint ones. */
function field(): DrawnStar[] {
  const random = seeded(1);
  return Array.from({ length: 80 }, () => ({
    x: random.next() * (SIZE.width + 60) - 30,
    y: random.next() * (SIZE.height + 60) - 30,
    flux: 400 * 10 ** (2 * random.next() ** 2),
  }));
}

/** A session of two trains on one field: a dither every third frame, hot pixels in their places, dew on one of them. */
function session(): string {
  const folder = tempFolder();
  const random = seeded(2);
  const stars = field();
  for (const train of ['heron', 'wren']) {
    mkdirSync(join(folder, train));
    const hot = Array.from({ length: HOT }, () => ({
      at: random.whole(0, SIZE.width * SIZE.height - 1),
      glow: 100 * 10 ** (2.2 * random.next() ** 2),
    }));
    let aim = { x: 0, y: 0 };
    for (let n = 0; n < FRAMES; n++) {
      if (n % 3 === 0) aim = { x: random.normal(0, 6), y: random.normal(0, 6) };
      const pixels = drawQuickly({
        ...SIZE,
        stars: stars.map(({ x, y, flux }) => ({ x: x + aim.x, y: y + aim.y, flux: flux * lightOn(train, n) })),
        shape: { profile: { kind: 'gaussian', fwhm: FWHM * (1 + dewOn(train, n)) } },
        background: 400,
        electronsPerAdu: 1,
        readNoise: 3,
        seed: n + (train === 'wren' ? 101 : 1),
      });
      for (const { at, glow } of hot)
        pixels[at] = Math.min(
          65_535,
          Math.max(0, Math.round((pixels[at] ?? 0) + random.normal(glow, Math.sqrt(glow)))),
        );
      const cards = [
        ['IMAGETYP', 'LIGHT'],
        ['DATE-OBS', new Date(BEGIN_MS + n * EVERY_MS).toISOString().slice(0, -1)],
        ['EXPTIME', SECONDS],
        ['OBJECT', 'NGC 281'],
        ['FILTER', 'L'],
        ['TELESCOP', train],
        ['FOCALLEN', 480],
        ['XPIXSZ', 7.52],
        ['XBINNING', 2],
        ['YBINNING', 2],
        ['EGAIN', 1],
      ] as const;
      const name = `${train}_${String(n).padStart(3, '0')}.fits`;
      writeFileSync(join(folder, train, name), writeFits({ cards, ...SIZE, bitpix: 16, pixels }));
    }
  }
  return folder;
}

describe('an hour of dew on one train, its camera binned 2 × 2 and full of hot pixels', () => {
  let night: Night;
  beforeAll(async () => {
    const [only] = await readNights(session(), {
      nowMs: TEST_NOW_MS,
      stars: { by: 'full', threads: 0, cacheFolder: tempFolder() },
    });
    if (!only) throw new Error('no night');
    night = only;
  });

  it('every frame has the light that was drawn', () => {
    for (const train of ['heron', 'wren']) {
      const lights = night.accounts.lights.filter((light) => light.train === train);
      expect(lights).toHaveLength(FRAMES);
      for (const [n, { id }] of lights.entries()) {
        const flux = night.stars?.frames[id]?.flux ?? NaN;
        // Of what is left a dozen faint stars say it, to some hundredths.
        expect(Math.abs(flux - lightOn(train, n)), id).toBeLessThan(0.05);
      }
    }
  });

  it('frames lie as they were dithered: none stands on the pixels that stay', () => {
    const dewed = night.accounts.lights.filter(({ train }) => train === 'wren').slice(DEW_FROM + DEW_FRAMES);
    for (const { id, causes } of dewed)
      expect(
        causes.map(({ kind }) => kind),
        id,
      ).toContain('dimmed');
    const [reference] = night.stars?.pointings.filter(({ train }) => train === 'wren') ?? [];
    expect(reference?.elsewhere).toBe(0);
  });

  it('the finding names the train and its hour', () => {
    const found = night.findings.ranked.find(({ id }) => id === 'dimmed-alone');
    expect(found?.title).toContain('wren');
    // Drawn below 0.7 of the light from the fifth dewed frame on.
    expect(found?.frames).toBe(FRAMES - DEW_FROM - 5);
  });
});
