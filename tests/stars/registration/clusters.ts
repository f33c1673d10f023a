/** Clusters of stars: most of them crowd around one point. */
import { normalOf, randomOf, type SkyStar } from './drawn-sky.js';

/** A cluster of about 1,500 stars with a core of some arcminutes, and a thin field around it. */
export function clusterOf(seed: number, coreArcsec = 250): SkyStar[] {
  const random = randomOf(seed);
  const normal = normalOf(random);
  const flux = () => Math.min(3e6, 2000 * (1 - random()) ** (-1 / 0.875));
  const core = Array.from({ length: 1500 }, () => ({
    x: coreArcsec * normal(),
    y: coreArcsec * normal(),
    flux: flux(),
  }));
  const field = Array.from({ length: 300 }, () => ({
    x: (random() - 0.5) * 12_000,
    y: (random() - 0.5) * 12_000,
    flux: flux(),
  }));
  return [...core, ...field];
}
