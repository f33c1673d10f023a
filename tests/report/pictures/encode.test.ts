import { loadImage } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { besideEachOther, encodeGrey } from '../../../src/report/pictures/encode.js';
import { seeded } from '../../support/generator/random.js';

/** Noise, which no encoder makes small. */
function noise(width: number, height: number) {
  const random = seeded(9);
  return { width, height, grey: Uint8Array.from({ length: width * height }, () => random.whole(0, 255)) };
}

describe('pictures for the page', () => {
  it('stay within their size whatever they show, and keep their shape', async () => {
    const picture = await encodeGrey(noise(900, 600), 80_000);
    expect(picture.uri.length).toBeLessThanOrEqual(80_000);
    expect(picture.width / picture.height).toBeCloseTo(1.5, 1);
    const image = await loadImage(Buffer.from(picture.uri.replace(/^data:image\/jpeg;base64,/, ''), 'base64'));
    expect([image.width, image.height]).toEqual([picture.width, picture.height]);
  });

  it('hold stamps side by side, enlarged by whole pixels', () => {
    const stamp = { width: 3, height: 3, grey: Uint8Array.from([0, 10, 20, 30, 40, 50, 60, 70, 255]) };
    const strip = besideEachOther([stamp, stamp], 7);
    expect([strip.width, strip.height]).toEqual([14, 6]);
    expect([...strip.grey.subarray(0, 14)]).toEqual([0, 0, 10, 10, 20, 20, 96, 96, 0, 0, 10, 10, 20, 20]);
    expect(strip.grey.at(-1)).toBe(255);
  });
});
