// Writes frames of 6248 × 4176 16-bit pixels with 3,000 stars (Moffat β 3.5, FWHM 2.6 px), sky 600 ADU, noise 20 ADU.
import { closeSync, openSync, writeSync } from 'node:fs';

const WIDTH = 6248;
const HEIGHT = 4176;
const STARS = 3000;
const FWHM = 2.6;
const BETA = 3.5;

/** @param {string} path @param {number} seed */
export function makeFrame(path, seed) {
  const random = generator(seed);
  const values = new Float32Array(WIDTH * HEIGHT);
  const noise = Float32Array.from({ length: 1 << 20 }, () => normal(random) * 20);
  for (let y = 0; y < HEIGHT; y++) {
    const from = Math.floor(random() * (noise.length - WIDTH));
    for (let x = 0; x < WIDTH; x++) values[y * WIDTH + x] = 600 + noise[from + x];
  }
  const alpha2 = (FWHM / 2) ** 2 / (2 ** (1 / BETA) - 1);
  for (let star = 0; star < STARS; star++) {
    const sx = 30 + random() * (WIDTH - 60);
    const sy = 30 + random() * (HEIGHT - 60);
    const flux = 1500 * 300 ** (random() ** 2.2);
    for (let y = Math.floor(sy) - 20; y <= sy + 20; y++)
      for (let x = Math.floor(sx) - 20; x <= sx + 20; x++) {
        let light = 0;
        for (let j = -1; j <= 1; j++)
          for (let i = -1; i <= 1; i++)
            light += (1 + ((x + i / 3 - sx) ** 2 + (y + j / 3 - sy) ** 2) / alpha2) ** -BETA;
        values[y * WIDTH + x] += (((BETA - 1) / (Math.PI * alpha2)) * flux * light) / 9;
      }
  }
  const cards = [
    'SIMPLE  =                    T',
    'BITPIX  =                   16',
    'NAXIS   =                    2',
    `NAXIS1  = ${String(WIDTH).padStart(20)}`,
    `NAXIS2  = ${String(HEIGHT).padStart(20)}`,
    'BZERO   =                32768',
    'BSCALE  =                    1',
    'END',
  ];
  const header = Buffer.from(
    cards
      .map((card) => card.padEnd(80))
      .join('')
      .padEnd(2880),
    'latin1',
  );
  const data = Buffer.alloc(Math.ceil((values.length * 2) / 2880) * 2880);
  for (let i = 0; i < values.length; i++)
    data.writeInt16BE(Math.min(65535, Math.max(0, Math.round(values[i]))) - 32768, i * 2);
  const file = openSync(path, 'w');
  for (const bytes of [header, data]) writeSync(file, bytes);
  closeSync(file);
}

function generator(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return ((state ^ (state >>> 15)) >>> 0) / 4294967296;
  };
}

function normal(random) {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
