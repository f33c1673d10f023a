/** What the pixels of a drawn night would say, without drawing them: the truth with the noise of the measurement. */
import type { FrameStars } from '../../../src/model/index.js';
import { median, robustSpread } from '../../../src/model/statistics.js';
import type { Random } from '../generator/random.js';
import { type DrawnLight, TRAINS } from './drawn-night.js';
import type { Compared } from './table.js';
import { figuresOf } from './truth.js';

/** Of one star: of ln FWHM, of ln(a/b), of ln flux. */
export interface StarNoise {
  readonly width: number;
  readonly stretch: number;
  readonly flux: number;
}

/** Error of a median against that of one value, times √n. */
const MEDIAN_ERROR = 1.253;

/** The noise found where measured frames were drawn undisturbed; of one star, from the scatter of frames. */
export function noiseOf(compared: readonly Compared[]): StarNoise {
  const still = compared.flatMap(({ light, stars }) =>
    stars === null || light.events.length > 0 ? [] : [{ light, stars, drawn: figuresOf(light) }],
  );
  const spread = (error: (one: (typeof still)[number]) => number): number =>
    robustSpread(still.map((one) => error(one) * Math.sqrt(one.stars.count))) / MEDIAN_ERROR;
  return {
    width: spread(({ stars, drawn }) => Math.log((stars.fwhm ?? NaN) / drawn.width)),
    stretch: spread(({ stars, drawn }) => Math.log((stars.elongation ?? NaN) / drawn.byMoments)),
    flux: spread(({ stars, light }) => Math.log((stars.flux ?? NaN) / light.transmission)),
  };
}

/** Stars are found above this flux, ADU, at an FWHM of 3 px; the limit grows with the width. */
const FAINTEST_ADU = 600;
const FLUXES = { from: 4000, to: 160_000 };

/** By frame id; each train has its own number of stars, from few to many. */
export function noisyStars(
  random: Random,
  lights: readonly DrawnLight[],
  noise: StarNoise,
): Record<string, FrameStars> {
  const found: Record<string, FrameStars> = {};
  for (const train of TRAINS) {
    const inField = Math.round(25 * 8 ** random.next());
    const own = lights.filter(({ frame }) => frame.train === train.id);
    const clear = bestThird(own);
    for (const light of own) found[light.frame.id] = starsOf(random, light, { inField, clear: clear(light), noise });
  }
  return found;
}

/** Mean transmission of the best third of a frame's filter. */
function bestThird(lights: readonly DrawnLight[]): (light: DrawnLight) => number {
  return ({ frame }) => {
    const all = lights.filter((l) => l.frame.filter === frame.filter).map(({ transmission }) => transmission);
    const best = all.sort((a, b) => b - a).slice(0, Math.max(1, Math.round(all.length / 3)));
    return best.reduce((sum, one) => sum + one, 0) / best.length;
  };
}

interface Field {
  /** Stars of a clear frame. */
  readonly inField: number;
  /** Transmission of the best third. */
  readonly clear: number;
  readonly noise: StarNoise;
}

function starsOf(random: Random, light: DrawnLight, { inField, clear, noise }: Field): FrameStars {
  const { byMoments, byHalf, width, direction } = figuresOf(light);
  const faintest = (FAINTEST_ADU * width) / 3 / light.transmission;
  const share = Math.log(FLUXES.to / faintest) / Math.log(FLUXES.to / FLUXES.from);
  const count = Math.max(0, Math.round(inField * Math.min(1, Math.max(0, share)) + random.normal(0, 0.5)));
  // Half the maximum decides of tails, the moments of trails.
  const elongation = Math.min(byMoments, byHalf);
  const stretch = Math.log(elongation);
  const own = light.shape.elongation ?? 1;
  const each = Array.from({ length: count }, () => ({
    width: width * Math.sqrt(Math.max(1, elongation / own)) * Math.exp(random.normal(0, noise.width)),
    x: stretch + random.normal(0, noise.stretch),
    y: random.normal(0, noise.stretch),
  }));
  const weight = ({ x, y }: { x: number; y: number }): number => Math.exp(Math.min(Math.hypot(x, y), Math.log(4))) - 1;
  const weights = each.reduce((sum, one) => sum + weight(one), 0);
  const along = each.reduce((sum, one) => sum + (weight(one) * one.x) / Math.hypot(one.x, one.y), 0);
  const across = each.reduce((sum, one) => sum + (weight(one) * one.y) / Math.hypot(one.x, one.y), 0);
  const enough = count >= 3;
  return {
    by: 'strips',
    count,
    fwhm: enough ? median(each.map((star) => star.width)) : null,
    fwhmUncertainty: null,
    halfFlux: null,
    elongation: enough ? Math.exp(Math.max(0, median(each.map(({ x }) => x)))) : null,
    direction: enough ? direction : null,
    agreement: enough ? Math.hypot(along, across) / weights : null,
    background: 500,
    noise: 20,
    flux: count < 10 ? null : (light.transmission / clear) * Math.exp(random.normal(0, noise.flux / Math.sqrt(count))),
    saturated: 0,
    shift: null,
  };
}
