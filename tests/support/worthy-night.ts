/** Invented nights with their worth assessed by the program, for tests of what is made from it. */
import type { TrainConfig } from '../../src/config/index.js';
import type { Night } from '../../src/model/index.js';
import { extinctionCoefficient, filterWavelengthNm, moonBrightening } from '../../src/sky/index.js';
import { assessWorth } from '../../src/worth/index.js';
import { namedNight } from './nights.js';

const WIDTHS_NM = { L: 300, R: 100, G: 100, B: 100, Ha: 3, OIII: 3, SII: 3 };

/**
 * One of the named nights, weighed.
 *
 * @param noise whether the rig file tells read noise and filter widths
 */
export function worthyNight(name: string, noise = true): Night {
  const night = namedNight(name);
  const configs = night.trains.map(
    ({ id, role }): TrainConfig => ({
      id,
      role,
      frames: [],
      match: {},
      logs: [],
      filterWavelengthsNm: {},
      filterWidthsNm: noise ? WIDTHS_NM : {},
      ...(noise ? { readNoiseElectrons: 1.5, darkCurrentElectronsPerSecond: 0.001 } : {}),
    }),
  );
  return {
    ...night,
    ...assessWorth({
      ...night,
      elevationM: night.site?.elevationM ?? null,
      configs,
      model: { wavelengthNm: filterWavelengthNm, extinction: extinctionCoefficient, brightening: moonBrightening },
    }),
  };
}
