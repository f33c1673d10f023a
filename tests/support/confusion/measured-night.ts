/** A drawn night as pixels, measured by the stage that measures the user's frames. */
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FrameStars } from '../../../src/model/index.js';
import { type FrameMeasurement, isMeasured, measureStars, relativeFlux } from '../../../src/stars/index.js';
import { brightnessOf } from '../drawing/draw-stars.js';
import { writeFits } from '../fits-writer.js';
import type { Random } from '../generator/random.js';
import { type DrawnLight, TRAINS } from './drawn-night.js';

const [WIDTH, HEIGHT] = [320, 224];
/** Cells of a pixel's side: stars stand on this grid, so that one picture of a star serves all. */
const CELLS = 4;
const BACKGROUND_ADU = 500;
const ELECTRONS_PER_ADU = 1.5;
const READ_NOISE_E = 4;

interface Placed {
  readonly x: number;
  readonly y: number;
  readonly flux: number;
}

/** Draws the lights into a folder, one at a time, and measures them; by frame id. */
export async function measureNight(
  random: Random,
  lights: readonly DrawnLight[],
  folder: string,
): Promise<Record<string, FrameStars>> {
  const found: Record<string, FrameStars> = {};
  for (const train of TRAINS) {
    const stars = field(random);
    const own = lights.filter(({ frame }) => frame.train === train.id);
    const measured: { id: string; filter: string | undefined; result: FrameMeasurement }[] = [];
    for (const light of own) {
      const path = join(folder, 'drawn.fits');
      const pixels = draw(random, light, stars);
      writeFileSync(path, writeFits({ cards: [], width: WIDTH, height: HEIGHT, bitpix: 16, pixels }));
      const { id, filter } = light.frame;
      const one = { id, path, sizeBytes: 0, changedMs: 0, electronsPerAdu: ELECTRONS_PER_ADU };
      const result = (await measureStars([one], { by: 'strips', threads: 0 })).measured.get(id);
      rmSync(path);
      if (result !== undefined) measured.push({ id, filter, result });
    }
    for (const filter of new Set(own.map(({ frame }) => frame.filter))) {
      const group = measured.flatMap(({ id, filter: its, result }) =>
        its === filter && isMeasured(result) ? [{ id, ...result }] : [],
      );
      const flux = relativeFlux(group.map(({ list }) => ({ list, shift: null }))).map((one) => one?.ratio ?? null);
      for (const [i, { id, stars: figures }] of group.entries()) found[id] = { ...figures, flux: flux[i] ?? null };
    }
  }
  return found;
}

/** Stars that do not touch, on the grid of cells. */
function field(random: Random): Placed[] {
  const stars: Placed[] = [];
  const spacing = 34 + random.whole(0, 8);
  for (let y = spacing * 0.7; y < HEIGHT - spacing / 2; y += spacing)
    for (let x = spacing * 0.7; x < WIDTH - spacing / 2; x += spacing)
      stars.push({
        x: onGrid(x + (random.next() - 0.5) * spacing * 0.3),
        y: onGrid(y + (random.next() - 0.5) * spacing * 0.3),
        flux: 4000 * 40 ** random.next(),
      });
  return stars;
}

const onGrid = (value: number): number => Math.round(value * CELLS) / CELLS;

function draw(random: Random, { shape, transmission }: DrawnLight, stars: readonly Placed[]): Float64Array {
  const { profile, path, elongation = 1 } = shape;
  const moved = path.reduce((most, { x, y }) => Math.max(most, Math.hypot(x, y)), 0);
  const wide = profile.kind === 'ring' ? profile.outer + 5 : 2 * profile.fwhm;
  const reach = Math.ceil(Math.sqrt(elongation) * wide + moved + 1);
  const picture = pictureOf(shape, reach);
  const side = 2 * reach * CELLS;
  const values = new Float64Array(WIDTH * HEIGHT);
  const [dx, dy] = [random.whole(-3, 3), random.whole(-3, 3)];
  for (const { x: x0, y: y0, flux } of stars) {
    const [left, top] = [Math.ceil(x0 + dx - reach + 0.5), Math.ceil(y0 + dy - reach + 0.5)];
    for (let y = Math.max(0, top); y < Math.min(HEIGHT, top + 2 * reach - 1); y++)
      for (let x = Math.max(0, left); x < Math.min(WIDTH, left + 2 * reach - 1); x++) {
        const column = Math.round((x - x0 - dx + reach - 0.5) * CELLS);
        const row = Math.round((y - y0 - dy + reach - 0.5) * CELLS);
        let sum = 0;
        for (let j = row; j < row + CELLS; j++)
          for (let i = column; i < column + CELLS; i++) sum += picture[j * side + i] ?? 0;
        values[y * WIDTH + x] = (values[y * WIDTH + x] ?? 0) + (flux * transmission * sum) / CELLS ** 2;
      }
  }
  for (let at = 0; at < values.length; at++) {
    const electrons = ((values[at] ?? 0) + BACKGROUND_ADU) * ELECTRONS_PER_ADU;
    const noisy = random.normal(electrons, Math.sqrt(electrons + READ_NOISE_E ** 2));
    values[at] = Math.min(65_535, Math.max(0, Math.round(noisy / ELECTRONS_PER_ADU)));
  }
  return values;
}

/** Light per px² at the middles of cells, from −reach to +reach. */
function pictureOf(shape: DrawnLight['shape'], reach: number): Float64Array {
  const side = 2 * reach * CELLS;
  const light = brightnessOf({ ...shape, path: [{ x: 0, y: 0, share: 1 }] });
  const picture = new Float64Array(side * side);
  for (const step of shape.path) {
    const far = shape.profile.kind === 'ring' ? shape.profile.outer + 5 : 2.2 * shape.profile.fwhm;
    const near = Math.ceil(far * Math.sqrt(shape.elongation ?? 1) * CELLS);
    const [cx, cy] = [Math.round((reach + step.x) * CELLS), Math.round((reach + step.y) * CELLS)];
    for (let j = Math.max(0, cy - near); j < Math.min(side, cy + near); j++)
      for (let i = Math.max(0, cx - near); i < Math.min(side, cx + near); i++) {
        const x = (i + 0.5) / CELLS - reach - step.x;
        const y = (j + 0.5) / CELLS - reach - step.y;
        picture[j * side + i] = (picture[j * side + i] ?? 0) + step.share * light(x, y);
      }
  }
  return picture;
}
