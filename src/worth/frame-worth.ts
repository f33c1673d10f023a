/** The worth of single frames. */
import { durationMs, type FrameWorth, type JudgedFrame } from '../model/index.js';
import type { Band } from './band.js';
import { worthBounds } from './bounds.js';
import type { MeasuredSky } from './measured-sky.js';
import { effectiveShare, skyLimitedShare } from './noise.js';
import type { Noise } from './noise-basis.js';
import { clearTransparency, V_WAVELENGTH_NM, type RelativeSky } from './sky-model.js';

/** Filters this close to V have the published accuracy of the moonlight model. */
const VISUAL_NM = 60;

/** The inputs of a frame's worth. */
export interface FrameTerms {
  readonly band: Band;
  readonly noise: Noise;
  readonly darkSkyMagArcsec2: number;
  /** Length of the reference frame, seconds. */
  readonly referenceSeconds: number;
  readonly predicted: RelativeSky | null;
  readonly measuredSky: MeasuredSky | undefined;
  /** The reference of measured levels. */
  readonly skyAgainst: 'rig-file' | 'night';
  readonly measuredTransparency: number | undefined;
}

/**
 * Assesses one light. Measurements take precedence over the model; the Moon's part in a measured sky is the model's
 * fraction.
 *
 * @returns `null` for a target below the horizon, an unknown position in the sky, or no exposure at all
 */
export function frameWorth(frame: JudgedFrame, terms: FrameTerms): FrameWorth | null {
  const { band, noise, predicted, measuredSky, measuredTransparency } = terms;
  const airmass = frame.sky?.airmass ?? null;
  const exposureMs = durationMs(frame.exposure);
  if (!predicted || airmass === null || exposureMs <= 0) return null;
  const predictedMoonless = predicted.dark + predicted.twilight;
  const skyRatio = measuredSky?.ratio ?? predictedMoonless + predicted.moon;
  const transparency = measuredTransparency ?? clearTransparency(band.k, airmass);
  const seconds = exposureMs / 1000;
  const share = shareUnder(skyRatio, transparency, seconds, terms);
  // The fraction first: with the Moon down it is exactly 1, and the Moon takes exactly nothing.
  const moonless = skyRatio * (predictedMoonless / (predictedMoonless + predicted.moon));
  const bounds = worthBounds({
    moonless,
    moon: skyRatio - moonless,
    transparency,
    sky: measuredSky === undefined ? 'modelled' : terms.skyAgainst,
    air: measuredTransparency === undefined ? 'modelled' : 'measured',
    isVisual: Math.abs(band.wavelengthNm - V_WAVELENGTH_NM) < VISUAL_NM,
    share: (ratio, arriving) => shareUnder(ratio, arriving, seconds, terms),
  });
  return {
    extinctionPerAirmass: band.k,
    transparency,
    transparencyFrom: measuredTransparency === undefined ? 'modelled' : 'measured',
    moonBrighteningMag: predicted.moonBrighteningMag,
    skyRatio,
    skyFrom: measuredSky ? 'measured' : 'modelled',
    skyMagArcsec2: terms.darkSkyMagArcsec2 - 2.5 * Math.log10(skyRatio),
    skyElectronsPerSecond: noise.zenithSky === null ? null : noise.zenithSky * skyRatio,
    noise: noise.full ? 'read-noise' : 'sky-limited',
    share,
    ...bounds,
    moonlessShare: shareUnder(moonless, transparency, seconds, terms),
    effectiveMs: exposureMs * share,
  };
}

/** Effective ÷ clock time of an exposure under a sky. @param skyRatio sky ÷ dark sky at the zenith */
export function shareUnder(
  skyRatio: number,
  transparency: number,
  seconds: number,
  { noise, referenceSeconds }: Pick<FrameTerms, 'noise' | 'referenceSeconds'>,
): number {
  if (!noise.full) return skyLimitedShare(transparency, skyRatio);
  const { readNoise, zenithSky } = noise.full;
  return effectiveShare(
    transparency,
    { sky: zenithSky * skyRatio, dark: noise.dark, readNoise, seconds },
    { sky: zenithSky, dark: noise.dark, readNoise, seconds: referenceSeconds },
  );
}
