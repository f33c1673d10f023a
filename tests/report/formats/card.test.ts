import { loadImage } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { canvasWithFonts } from '../../../src/report/canvas-fonts.js';
import { card } from '../../../src/report/formats/card.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';
import { inFull } from '../../support/runs.js';

/** With all that a card shows, with most lines, with the longest, and with each part empty. */
const CORNERS = ['twin-night', 'three-trains', 'long-names', 'none-kept', 'no-frames', 'no-site'];

async function pixels(name: string): Promise<{ width: number; height: number; data: Uint8ClampedArray }> {
  const { createCanvas } = await canvasWithFonts();
  const image = await loadImage(Buffer.from(await card.render(namedNight(name), { nowMs: 0, version: '0' })));
  const canvas = createCanvas(image.width, image.height);
  const context = canvas.getContext('2d');
  context.drawImage(image, 0, 0);
  return { width: image.width, height: image.height, data: context.getImageData(0, 0, image.width, image.height).data };
}

/** Share of pixels in a band of rows that are not the paper's colour. */
function inked({ width, data }: { width: number; data: Uint8ClampedArray }, top: number, bottom: number): number {
  let count = 0;
  for (let i = top * width * 4; i < bottom * width * 4; i += 4)
    if (data[i] !== data[0] || data[i + 1] !== data[1] || data[i + 2] !== data[2]) count++;
  return count / ((bottom - top) * width);
}

describe('the card', () => {
  it.each(inFull(NIGHT_NAMES, CORNERS))(
    'is a picture of 1200 × 630 with ink in each of its parts: %s',
    async (name) => {
      const picture = await pixels(name);
      expect([picture.width, picture.height]).toEqual([1200, 630]);
      for (const [top, bottom] of [
        [40, 76],
        [95, 300],
        [374, 600],
      ] as const)
        expect(inked(picture, top, bottom), `${top} to ${bottom}`).toBeGreaterThan(0.005);
    },
  );

  it('keeps its margins free', async () => {
    const { width, height, data } = await pixels('long-names');
    for (let y = 0; y < height; y++) {
      for (const x of [0, 20, 40, width - 40, width - 20, width - 1]) expect(data[(y * width + x) * 4]).toBe(data[0]);
    }
  });
});
