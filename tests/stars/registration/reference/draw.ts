/**
 * The star lists both programs are given: seeded, so that they can be drawn again.
 * `npx esbuild tests/stars/registration/reference/draw.ts --bundle --platform=node --format=esm | node --input-type=module > lists.json`
 */
import { brightest, type StarList, starListOf } from '../../../../src/stars/registration/star-list.js';
import { cameraAt, drawn, randomOf, skyOf } from '../drawn-sky.js';

const random = randomOf(20261014);
const sky = skyOf(281, 500);
const round = (v: number) => Number(v.toFixed(4));

/** The brightest as astroalign wants them: brightest first, positions only. */
function positions(list: StarList): readonly (readonly [number, number])[] {
  return Array.from({ length: list.count }, (_, i) => [round(list.x[i]!), round(list.y[i]!)]);
}

function frame(at: { x: number; y: number }, rotation: number, pxPerArcsec: number, stars: number) {
  const camera = cameraAt(at, rotation, pxPerArcsec);
  const list = starListOf(drawn(sky, { camera, random, most: stars + 10, missing: 0.08, extra: 0.05 }));
  return positions(brightest(list, stars));
}

const frames = Array.from({ length: 12 }, (_, i) => {
  const at = { x: (random() - 0.5) * 40, y: (random() - 0.5) * 40 };
  return frame(at, 25 + 0.01 * i + (i >= 7 ? 180 : 0), 0.6188, 60);
});
const trains = [115, 300].map((rotation, i) => frame({ x: 400 * i, y: 250 }, rotation, 0.7735, 60));
process.stdout.write(JSON.stringify({ frames, trains }));
