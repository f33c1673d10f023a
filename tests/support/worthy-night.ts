/** Invented nights with their worth assessed by the program, for tests of what is made from it. */
import { filterWavelengthNm, type CameraFacts, type Night } from '../../src/model/index.js';
import { extinctionCoefficient, moonBrightening, twilightNanoLamberts } from '../../src/sky/index.js';
import { assessWorth } from '../../src/worth/index.js';
import { namedNight } from './nights.js';

const WIDTHS_NM = { L: 300, R: 100, G: 100, B: 100, Ha: 3, OIII: 3, SII: 3 };

/**
 * One of the named nights, weighed; once. Whoever changes something makes a copy.
 *
 * @param noise whether the rig file tells read noise and filter widths
 */
export function worthyNight(name: string, noise = true): Night {
  const key = `${name} ${noise}`;
  const known = nights.get(key) ?? weighed(name, noise);
  nights.set(key, known);
  return known;
}

const nights = new Map<string, Night>();

function weighed(name: string, noise: boolean): Night {
  const night = namedNight(name);
  const cameras = night.gathered.trains.map(
    ({ id }): CameraFacts => ({
      id,
      filterWavelengthsNm: {},
      filterWidthsNm: noise ? WIDTHS_NM : {},
      ...(noise ? { readNoiseElectrons: 1.5, darkCurrentElectronsPerSecond: 0.001 } : {}),
    }),
  );
  const equipped: Night = { ...night, gathered: { ...night.gathered, cameras } };
  return {
    ...equipped,
    worth: assessWorth(equipped, {
      wavelengthNm: filterWavelengthNm,
      extinction: extinctionCoefficient,
      brightening: moonBrightening,
      twilight: twilightNanoLamberts,
    }),
  };
}
