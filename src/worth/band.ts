import { byFilter, type CameraFacts } from '../model/index.js';
import { V_WAVELENGTH_NM, type SkyModel } from './sky-model.js';

/** The optical properties of a filter relevant for the atmosphere. */
export interface Band {
  readonly wavelengthNm: number;
  /** Extinction of a clear night, magnitudes per air mass. */
  readonly k: number;
  /** Neither name nor rig file state the wavelength: V is assumed. */
  readonly assumed: boolean;
}

/**
 * The band of a filter: by the rig file's wavelength, else by its name, else V.
 *
 * @param elevationM metres above sea level
 */
export function bandOf(filter: string, train: CameraFacts | undefined, model: SkyModel, elevationM: number): Band {
  const statedNm = byFilter(train?.filterWavelengthsNm, filter) ?? model.wavelengthNm(filter);
  const k = statedNm === null ? null : model.extinction(statedNm, elevationM);
  if (statedNm !== null && k !== null) return { wavelengthNm: statedNm, k, assumed: false };
  return {
    wavelengthNm: statedNm ?? V_WAVELENGTH_NM,
    k: extinctionInV(model, elevationM),
    assumed: true,
  };
}

/** Extinction in V, magnitudes per air mass. @throws RangeError when the model does not know V: all bands rest on it */
export function extinctionInV(model: SkyModel, elevationM: number): number {
  const k = model.extinction(V_WAVELENGTH_NM, elevationM);
  if (k === null) throw new RangeError(`the sky model has no extinction at ${V_WAVELENGTH_NM} nm`);
  return k;
}
