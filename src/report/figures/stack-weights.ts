/**
 * Weights for stacking: inverse variance of each frame after scaling all to the same starlight, (τ·t ÷ σ)², with τ the
 * flux of the same stars, t the exposure and σ the noise of a pixel. For groups without measured pixels, the
 * dark-equivalent seconds, which are the same ratio by the model.
 */
import { durationMs, groupByAll, ownValue, worthOfFrame, type JudgedFrame, type Night } from '../../model/index.js';

type Weigh = (frame: JudgedFrame) => number | null;

/**
 * By frame id: 1 for the best of its target, filter and train, and 0 for lost frames. Absent if nothing is known, and
 * for exposures without a file. Each group uses a single measure.
 */
export function stackWeights(night: Pick<Night, 'accounts' | 'stars' | 'worth'>): ReadonlyMap<string, number> {
  const weights = new Map<string, number>();
  const files = night.accounts.lights.filter(({ file }) => file !== undefined);
  for (const group of groupByAll(files, ({ train, target, filter }) => [train, target, filter])) {
    const usable = group.filter(({ verdict }) => verdict !== 'lost');
    const weigh = [byPixels(night), byWorth(night)].find((one) => usable.every((frame) => one(frame) !== null));
    const best = weigh === undefined ? 0 : Math.max(0, ...usable.flatMap((frame) => weigh(frame) ?? []));
    for (const frame of group) {
      if (frame.verdict === 'lost') {
        weights.set(frame.id, 0);
        continue;
      }
      const weight = weigh?.(frame);
      if (typeof weight === 'number' && best > 0) weights.set(frame.id, weight / best);
    }
  }
  return weights;
}

/** Fluxes are relative within one exposure time: per second they are comparable. */
function byPixels({ stars }: Pick<Night, 'stars'>): Weigh {
  return ({ id, exposure }) => {
    const own = ownValue(stars?.frames, id);
    if (own === undefined || own.flux === null || own.noise <= 0) return null;
    return ((own.flux * durationMs(exposure)) / own.noise) ** 2;
  };
}

function byWorth(night: Pick<Night, 'worth'>): Weigh {
  return (frame) => worthOfFrame(night, frame)?.effectiveMs ?? null;
}
