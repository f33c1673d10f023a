/** Transparency from the flux of the same stars in every frame. */
import { quantile, type JudgedFrame } from '../model/index.js';
import { secondsOf } from './settings.js';
import { clearTransparency } from './sky-model.js';

/** Fewer frames do not distinguish a clear one from a lucky one. */
const ENOUGH_FRAMES = 5;
/** The level of the clear sky: reached by the best tenth of the frames. */
const CLEAR_SHARE = 0.9;

export interface FluxMeasurement {
  /** Light that arrived, relative to the zenith through a clear sky; by frame id. */
  readonly transparencies: ReadonlyMap<string, number>;
  readonly frames: number;
  readonly used: boolean;
  readonly how: string;
}

/**
 * Transparency of each light of one target, filter and train. Fluxes are scaled to the zenith by the filter's
 * extinction; the level reached by a tenth of the frames represents a clear sky. If the whole night was hazy, so is
 * that reference.
 *
 * @param k extinction, magnitudes per air mass
 * @returns `null` when no header carries a flux
 */
export function measureTransparency(lights: readonly JudgedFrame[], k: number): FluxMeasurement | null {
  const measured = lights.flatMap((frame) => {
    const flux = frame.header?.starFluxAdu;
    const airmass = frame.sky?.airmass ?? null;
    const gain = frame.header?.gain ?? null;
    return flux !== undefined && airmass !== null && secondsOf(frame) > 0
      ? [{ id: frame.id, rate: flux / secondsOf(frame), airmass, gain }]
      : [];
  });
  if (measured.length === 0) return null;
  const declined = (how: string): FluxMeasurement => ({
    transparencies: new Map(),
    frames: measured.length,
    used: false,
    how,
  });
  if (measured.length < ENOUGH_FRAMES) return declined(`fewer than ${ENOUGH_FRAMES} frames carry one`);
  if (new Set(measured.map(({ gain }) => gain)).size > 1) return declined('the frames were taken with different gains');
  const clear = quantile(
    measured.map(({ rate, airmass }) => rate / clearTransparency(k, airmass)),
    CLEAR_SHARE,
  );
  return {
    transparencies: new Map(measured.map(({ id, rate }) => [id, rate / clear])),
    frames: measured.length,
    used: true,
    how: 'against the level a tenth of the frames reach, taken to the zenith by extinction',
  };
}
