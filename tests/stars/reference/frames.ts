/** The frames that other tools measured too. Seeded: the tests draw the very pixels that the tools were given. */
import { type DrawnFrame, type DrawnShape, scatter } from '../../support/drawing/draw-stars.js';
import { seeded } from '../../support/generator/random.js';

const SIDE = 656;
const SPACING = 81;

function frameOf(seed: number, shape: DrawnShape, more: Partial<DrawnFrame> = {}): DrawnFrame {
  const size = { width: SIDE, height: SIDE };
  const stars = scatter(seeded(seed), size, SPACING, { from: 30_000, to: 250_000 });
  return { ...size, stars, shape, background: 600, electronsPerAdu: 1.4, readNoise: 5, seed, ...more };
}

/** By name: 49 stars each, none near another. */
export const FRAMES: Readonly<Record<string, DrawnFrame>> = {
  // Recorded as 1.83 and 2.02 px: the pixel's own width counts for 8 and 6 % there.
  'gaussian-1.7': frameOf(107, { profile: { kind: 'gaussian', fwhm: 1.7 } }),
  'gaussian-1.9': frameOf(108, { profile: { kind: 'gaussian', fwhm: 1.9 } }),
  'gaussian-2.6': frameOf(101, { profile: { kind: 'gaussian', fwhm: 2.6 } }),
  'gaussian-4': frameOf(102, { profile: { kind: 'gaussian', fwhm: 4 } }),
  'gaussian-6': frameOf(103, { profile: { kind: 'gaussian', fwhm: 6 } }),
  'long-gaussian': frameOf(104, { profile: { kind: 'gaussian', fwhm: 3.2 }, elongation: 1.4, direction: 35 }),
  'long-moffat': frameOf(105, { profile: { kind: 'moffat', fwhm: 3, beta: 3.5 }, elongation: 1.25, direction: 130 }),
  'gradient-moffat': frameOf(106, { profile: { kind: 'moffat', fwhm: 3.4, beta: 3.5 } }, { gradient: 80 }),
};
