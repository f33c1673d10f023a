import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { NotMeasured } from '../../../src/stars/not-measured.js';
import { ditherNumbers } from '../../../src/stars/pixels/dither.js';
import { openPixels, PixelMemory } from '../../../src/stars/pixels/open.js';
import { sampleScale } from '../../../src/stars/pixels/samples.js';

/** Made by reference/make-tiles.py: packed by fpack, hashes of the pixels that funpack restores. */
const REFERENCE = fileURLToPath(new URL('../reference/', import.meta.url));
const { width, height, sha256 } = JSON.parse(readFileSync(`${REFERENCE}tiles.json`, 'utf8')) as {
  width: number;
  height: number;
  sha256: Record<string, string>;
};
const UNREAD = ['hcompress-16', 'plio-16'];

async function valuesOf(name: string): Promise<Float32Array> {
  const pixels = await openPixels(`${REFERENCE}tiles/${name}.fits.fz`, new PixelMemory());
  const { zero, scale } = sampleScale(pixels.shape);
  const values: number[] = [];
  // Bands of odd heights, so that tiles are cut.
  const spans = [0, 7, 15, 16, 40].map((from, band, all) => {
    const to = all[band + 1] ?? height;
    return { first: from, end: to, from, to };
  });
  for await (const band of pixels.bands(spans)) for (const sample of band.samples) values.push(zero + scale * sample);
  pixels.close();
  return Float32Array.from(values);
}

function digest(values: Float32Array): string {
  const bits = new Uint32Array(values.buffer);
  values.forEach((value, at) => {
    if (Number.isNaN(value)) bits[at] = 0x7fc00000;
  });
  return createHash('sha256').update(Buffer.from(bits.buffer)).digest('hex');
}

describe('tile-compressed frames', () => {
  it.each(Object.keys(sha256).filter((name) => !UNREAD.includes(name)))('%s: bit for bit as funpack', async (name) => {
    const values = await valuesOf(name);
    expect(values).toHaveLength(width * height);
    expect(digest(values)).toBe(sha256[name]);
  });

  it.each(UNREAD)('%s: not measured, and why', async (name) => {
    await expect(valuesOf(name)).rejects.toThrow(NotMeasured);
    await expect(valuesOf(name)).rejects.toThrow(/is not read; RICE_1/);
  });
});

describe('the random numbers of dithering', () => {
  // FITS Standard 4.0, Appendix I: the last seed of the series is 1043618065.
  it('end as the standard says', () => {
    expect(ditherNumbers()).toHaveLength(10_000);
    expect(ditherNumbers()[9_999]).toBe(Math.fround(1_043_618_065 / 2_147_483_647));
  });
});
