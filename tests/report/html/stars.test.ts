/** The section on stars, the list of frames and the card of a night with measured stars. */
import { createCanvas } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import type { Night, Picture } from '../../../src/model/index.js';
import { card } from '../../../src/report/formats/card.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { framesTables } from '../../../src/report/html/view/frames.js';
import { picturesView } from '../../../src/report/html/view/pictures.js';
import { starTable } from '../../../src/report/html/view/star-table.js';
import { zoneMaps } from '../../../src/report/html/view/star-zones.js';
import { starryNight } from '../../support/starry-night.js';

/** Wider to the right by a tenth, and in the corners; px. */
const ZONES = [2.6, 2.5, 2.86, 2.4, 2.3, 2.64, 2.6, 2.5, 2.86];
const UNCERTAINTIES = { halfFlux: 0.01, direction: 3, background: 0.4, noise: 0.05, flux: 0.01 };

function night(): Night {
  return starryNight('twin-night', (index) =>
    index === 3
      ? undefined
      : {
          by: 'full',
          zones: ZONES,
          uncertainties: UNCERTAINTIES,
          elongation: 1.234,
          flux: 0.87,
          background: 512,
          electronsPerSecond: { background: 1.25, noise: 0.05 },
        },
  );
}

describe('the map of widths over the field', () => {
  it('stands for each train, the first pixel lower left, with tilt and curvature', () => {
    const maps = zoneMaps(night());
    expect(maps.map(({ train }) => train)).toEqual(['heron', 'wren']);
    const [first] = maps;
    expect(first?.cells).toHaveLength(9);
    // The first zone is drawn lowest and leftmost.
    expect(first?.cells[0]?.x).toBe(0);
    expect(first?.cells[0]?.y).toBe(Math.max(...(first?.cells.map(({ y }) => y) ?? [])));
    expect(first?.cells[4]?.note).toBe('+0 %');
    // By hand: 2.787 on the right against 2.533 on the left of a mean of 2.584; corners 2.73 of 2.3.
    expect(first?.caption).toMatch(/right side \+10 % of the left, top within 1 % of the bottom/);
    expect(first?.caption).toMatch(/corners \+19 % of the centre/);
  });

  it('says how well a zone is known, and takes each frame against its own seeing', () => {
    // The second half of the night has half as wide stars again, and no star in the last zone.
    const widths = [2, 2, 2.2, 2, 2, 2.2, 2, 2, 2.2];
    const changing = starryNight('twin-night', (index) => {
      const wide = index % 2 === 1;
      const zones = widths.map((width, zone) => (wide && zone === 8 ? null : wide ? 1.5 * width : width));
      return { by: 'full', fwhm: wide ? 3 : 2, zones, zoneUncertainties: zones.map((zone) => zone && 0.1) };
    });
    const [map] = zoneMaps(changing);
    // Differences of a tenth and more have the darkest shade, small ones next to none.
    const darkest = (one = map): number => Math.max(...(one?.cells.map(({ opacity }) => Number(opacity)) ?? []));
    const even = widths.map((width) => 2 + (width - 2) / 50);
    const [plain] = zoneMaps(starryNight('twin-night', () => ({ by: 'full', fwhm: 2, zones: even })));
    expect(darkest()).toBeGreaterThan(3 * darkest(plain));
    expect(darkest(plain)).toBeLessThan(0.05);
    expect(map?.cells[8]?.note).toMatch(/^\+10( ± 1)? %$/);
    expect(map?.caption).toMatch(/right side \+10( ± 1)? % of the left/);
    const [single] = zoneMaps(
      starryNight('twin-night', (index) =>
        index > 1 ? undefined : { by: 'full', fwhm: 2, zones: widths, zoneUncertainties: widths.map(() => 0.1) },
      ),
    );
    // By hand: three zones of 0.1 px on either side, 0.082 px of 2.07.
    expect(single?.caption).toContain('right side +10 ± 4 % of the left');
    expect(single?.caption).toContain('top +0 ± 4 % of the bottom');
    expect(single?.cells[2]?.note).toBe('+10 ± 5 %');
  });

  it('is none where frames were read in strips', () => {
    expect(zoneMaps(starryNight('twin-night'))).toEqual([]);
  });
});

describe('the figures of the stars', () => {
  it('stand with their errors, and the sky in electrons where the gain is known', () => {
    const [row] = starTable(viewContext(night(), {}))?.rows ?? [];
    const texts = row?.cells.map(({ text }) => text) ?? [];
    expect(texts).toContain('1.234 ± 0.004');
    expect(texts).toContain('512.0 ± 0.4');
    expect(texts).toContain('1.250');
    expect(texts.some((text) => /^\d\.\d\d ± 0\.\d\d″$/.test(text))).toBe(true);
  });

  it('are measured columns in the list of frames, empty for a frame that was not', () => {
    const tables = framesTables(viewContext(night(), {}));
    for (const { table } of tables) {
      const at = table.columns.findIndex(({ label }) => label === 'Elongation');
      expect(at).toBeGreaterThan(0);
      const rows = table.bodies?.flatMap(({ rows }) => rows) ?? [];
      for (const row of rows) expect(row.cells).toHaveLength(table.columns.length);
      expect(rows.some((row) => row.cells[at]?.text === '1.23' && row.cells[at + 1]?.text === '0.87')).toBe(true);
    }
  });

  it('are no columns where no pixels were read', () => {
    const [first] = framesTables(viewContext({ ...night(), stars: null }, {}));
    expect(first?.table.columns.some(({ label }) => label === 'Elongation')).toBe(false);
  });
});

function white(): Picture {
  const canvas = createCanvas(400, 300);
  const context = canvas.getContext('2d');
  context.fillStyle = '#f0f';
  context.fillRect(0, 0, 400, 300);
  return { width: 400, height: 300, uri: `data:image/jpeg;base64,${canvas.toBuffer('image/jpeg').toString('base64')}` };
}

describe('the picture that people share', () => {
  it('stands on the card at the right of the sentence, and not without pictures', async () => {
    const plain = night();
    const field = { frame: 'x', train: 'heron', target: 'NGC 281', filter: 'Ha', picture: white() };
    const pictured: Night = { ...plain, pictures: { strips: [], fields: [field] } };
    const at = async (one: Night): Promise<number[]> => {
      const { loadImage } = await import('@napi-rs/canvas');
      const canvas = createCanvas(1200, 630);
      const context = canvas.getContext('2d');
      context.drawImage(await loadImage(Buffer.from(await card.render(one, { nowMs: 0, version: '0' }))), 0, 0);
      return [...context.getImageData(1000, 250, 1, 1).data.slice(0, 3)];
    };
    const [red = 0, green = 0] = await at(pictured);
    expect(red - green).toBeGreaterThan(150);
    const [plainRed = 0, plainGreen = 0] = await at({ ...plain, pictures: null });
    expect(Math.abs(plainRed - plainGreen)).toBeLessThan(60);
  });

  it('is nowhere with --no-pictures', () => {
    expect(picturesView(viewContext({ ...night(), pictures: null }, {}))).toEqual({ fields: [], strips: [] });
  });
});
