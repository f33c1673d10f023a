/** The sky stage as worth and plan ask for it. */
import { filterWavelengthNm } from './model/index.js';
import { extinctionCoefficient, moonBrightening, twilightNanoLamberts } from './sky/index.js';
import type { SkyModel } from './worth/index.js';

export const SKY_MODEL: SkyModel = {
  wavelengthNm: filterWavelengthNm,
  extinction: extinctionCoefficient,
  brightening: (place) => moonBrightening(place),
  twilight: twilightNanoLamberts,
};
