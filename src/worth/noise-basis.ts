/** What is known about a train's noise in one filter: read noise, dark current, and the dark sky in electrons. */
import { DEFAULT_THROUGHPUT } from '../config/index.js';
import { byFilter, type CameraFacts, type JudgedFrame, type NoiseNote, type Train } from '../model/index.js';
import type { Band } from './band.js';
import type { SkyMeasurement } from './measured-sky.js';
import { skyElectrons } from './photons.js';
import { medianKnown } from './settings.js';

/** The noise used in computations, and its source. */
export interface Noise {
  readonly dark: number;
  /** `null`: unknown, and the sky is assumed to be the only noise. */
  readonly full: { readonly readNoise: number; readonly zenithSky: number } | null;
  /** Dark sky at the zenith, electrons per second and pixel, if known. */
  readonly zenithSky: number | null;
  readonly note: NoiseNote;
}

/** Electrons per ADU of a frame: from the rig file, else from its header. */
export function electronsPerAdu(config: CameraFacts | undefined, frame: JudgedFrame): number | null {
  return config?.gainElectronsPerAdu ?? frame.header?.electronsPerAdu ?? null;
}

export interface NoiseInput {
  readonly trainId: string;
  readonly filter: string;
  readonly train: Train | undefined;
  readonly config: CameraFacts | undefined;
  readonly lights: readonly JudgedFrame[];
  readonly band: Band;
  readonly darkSkyMagArcsec2: number;
  readonly measured: SkyMeasurement | null;
}

/** Collects what is known about the noise of one train and filter. The rig file takes precedence over the headers. */
export function noiseOf(input: NoiseInput): Noise {
  const { config, lights, filter, band } = input;
  const readNoise = config?.readNoiseElectrons ?? medianKnown(lights.map((f) => f.header?.readNoiseElectrons));
  const dark = config?.darkCurrentElectronsPerSecond ?? 0;
  const zenith = zenithSky(input);
  const missing = [...(readNoise === null ? ['camera.readNoise'] : []), ...zenith.missing];
  return {
    dark,
    zenithSky: zenith.electrons,
    full: readNoise !== null && zenith.electrons !== null ? { readNoise, zenithSky: zenith.electrons } : null,
    note: {
      train: input.trainId,
      filter,
      zenithElectronsPerSecond: zenith.electrons,
      zenithFrom: zenith.from,
      readNoiseElectrons: readNoise,
      darkElectronsPerSecond: dark,
      missing,
      assumedBand: band.assumed,
    },
  };
}

function zenithSky({ measured, train, config, filter, band, darkSkyMagArcsec2 }: NoiseInput): {
  electrons: number | null;
  from: NoiseNote['zenithFrom'];
  missing: string[];
} {
  const stated = byFilter(config?.filterZenithSkies, filter);
  if (stated !== null) return { electrons: stated, from: 'rig-file', missing: [] };
  const level = medianKnown([...(measured?.skies.values() ?? [])].map((sky) => sky.zenithElectronsPerSecond));
  if (level !== null) return { electrons: level, from: 'measured', missing: [] };
  const [apertureMm, pixelScaleArcsec] = [train?.apertureMm, train?.pixelScaleArcsec];
  const filterWidthNm = byFilter(config?.filterWidthsNm, filter);
  if (apertureMm !== undefined && pixelScaleArcsec !== undefined && filterWidthNm !== null) {
    const path = {
      apertureMm,
      pixelScaleArcsec,
      filterWidthNm,
      wavelengthNm: band.wavelengthNm,
      throughput: config?.throughput ?? DEFAULT_THROUGHPUT,
    };
    return { electrons: skyElectrons(darkSkyMagArcsec2, path), from: 'modelled', missing: [] };
  }
  return {
    electrons: null,
    from: null,
    missing: [
      ...(apertureMm === undefined ? ['telescope.aperture'] : []),
      ...(pixelScaleArcsec === undefined ? ['telescope.focalLength and camera.pixelSize'] : []),
      ...(filterWidthNm === null ? [`filters.${filter}.width`] : []),
    ],
  };
}
