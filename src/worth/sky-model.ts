import type { SkyPosition } from '../model/index.js';

/** The sky functions used by the worth of a frame. They are implemented by the sky stage. */
export interface SkyModel {
  /** Central wavelength of a named filter, nm; `null` for an unknown name. */
  wavelengthNm(filter: string): number | null;
  /** Extinction on a clear night, magnitudes per air mass; `null` outside the table's wavelengths. */
  extinction(wavelengthNm: number, elevationM: number): number | null;
  /** Moonlight and dark sky at a position, nanolamberts; `null` for a target below the horizon. */
  brightening(place: {
    readonly phaseAngleDeg: number;
    readonly separationDeg: number;
    readonly moonAltitudeDeg: number;
    readonly targetAltitudeDeg: number;
    readonly k: number;
    readonly darkSkyMagArcsec2: number;
  }): { readonly deltaMag: number; readonly moonNanoLamberts: number; readonly darkNanoLamberts: number } | null;
  /** Twilight only, nanolamberts; 0 in darkness. */
  twilight(sunAltitudeDeg: number): number;
}

/** V: the band of the moonlight model, and of filters whose names are not known. */
export const V_WAVELENGTH_NM = 550;

/** Sky at a target's position in units of the dark sky at the zenith. */
export interface RelativeSky {
  /** Without the Moon. */
  readonly dark: number;
  /** Moonlight only; 0 with the Moon down. */
  readonly moon: number;
  /** Twilight only; 0 in darkness. */
  readonly twilight: number;
  /** Magnitudes per square arcsecond by which the Moon brightens it. */
  readonly moonBrighteningMag: number;
}

/** The clear sky at a position; `null` for a target below the horizon. */
export type PredictedSky = (at: SkyPosition) => RelativeSky | null;

/** Predicts the clear sky in one band. @param k magnitudes per air mass */
export function relativeSky(model: SkyModel, k: number, darkSkyMagArcsec2: number): PredictedSky {
  const at = (position: SkyPosition, targetAltitudeDeg = position.altitudeDeg) =>
    model.brightening({
      phaseAngleDeg: position.moonPhaseAngleDeg,
      separationDeg: position.moonSeparationDeg,
      moonAltitudeDeg: position.moonAltitudeDeg,
      targetAltitudeDeg,
      k,
      darkSkyMagArcsec2,
    });
  /** Dark sky at the zenith, wherever the Moon is. */
  let zenith: number | undefined;
  return (position) => {
    const here = at(position);
    zenith ??= at(position, 90)?.darkNanoLamberts;
    if (!here || zenith === undefined) return null;
    const twilightNanoLamberts = model.twilight(position.sunAltitudeDeg);
    const moonless = here.darkNanoLamberts + twilightNanoLamberts;
    return {
      dark: here.darkNanoLamberts / zenith,
      moon: here.moonNanoLamberts / zenith,
      twilight: twilightNanoLamberts / zenith,
      // Zero, not its negative, where there is no moonlight.
      moonBrighteningMag:
        here.moonNanoLamberts > 0 ? 2.5 * Math.log10((here.moonNanoLamberts + moonless) / moonless) : 0,
    };
  };
}

/**
 * Light of the target that arrives through a clear sky, relative to the zenith: 10^(−0.4·k·(X − 1)). Losses to clouds
 * and haze are not included, and cannot be derived from the sky's level.
 */
export function clearTransparency(k: number, airmass: number): number {
  return 10 ** (-0.4 * k * (airmass - 1));
}
