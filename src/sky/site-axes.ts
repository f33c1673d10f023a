import { type AstroTime, type Observer, SiderealTime } from 'astronomy-engine';
import type { SolarSystem, Triple } from './ephemeris.js';

const RAD = Math.PI / 180;

/**
 * From the J2000 equator to north, west and zenith of a site: the images of the first axis (0 to 2), of the second (3
 * to 5), and of the third (6 to 8).
 */
export type Axes = readonly [...Triple, ...Triple, ...Triple];

/**
 * North, west and zenith of a site among the stars, for many instants: the library's `Rotation_EQD_HOR` and
 * `CombineRotation`, to the last digit, in plain numbers and with what belongs to the site worked out once.
 */
export class SiteAxes {
  readonly #sinLatitude: number;
  readonly #cosLatitude: number;
  readonly #sinLongitude: number;
  readonly #cosLongitude: number;

  constructor({ latitude, longitude }: Observer) {
    this.#sinLatitude = Math.sin(latitude * RAD);
    this.#cosLatitude = Math.cos(latitude * RAD);
    this.#sinLongitude = Math.sin(longitude * RAD);
    this.#cosLongitude = Math.cos(longitude * RAD);
  }

  /** @param sky the axes of date are taken from it */
  at(sky: SolarSystem, time: AstroTime): Axes {
    const turned = -15 * SiderealTime(time) * RAD;
    const cos = Math.cos(turned);
    const sin = Math.sin(turned);
    const x = this.#cosLongitude;
    const y = this.#sinLongitude;
    const up = this.#cosLatitude;
    const flat = -this.#sinLatitude;
    // North, west and zenith on the equator of date, each turned with the Earth.
    const northX = cos * (flat * x) + sin * (flat * y);
    const northY = cos * (flat * y) - sin * (flat * x);
    const westX = cos * y + sin * -x;
    const westY = cos * -x - sin * y;
    const zenithX = cos * (up * x) + sin * (up * y);
    const zenithY = cos * (up * y) - sin * (up * x);
    const northZ = up;
    const zenithZ = this.#sinLatitude;
    return [
      northX * sky[9] + northY * sky[10] + northZ * sky[11],
      westX * sky[9] + westY * sky[10],
      zenithX * sky[9] + zenithY * sky[10] + zenithZ * sky[11],
      northX * sky[12] + northY * sky[13] + northZ * sky[14],
      westX * sky[12] + westY * sky[13],
      zenithX * sky[12] + zenithY * sky[13] + zenithZ * sky[14],
      northX * sky[15] + northY * sky[16] + northZ * sky[17],
      westX * sky[15] + westY * sky[16],
      zenithX * sky[15] + zenithY * sky[16] + zenithZ * sky[17],
    ];
  }
}

/** A vector of the J2000 equator along north, west and zenith of the site. */
export function inAxes(axes: Axes, vector: Triple): Triple {
  const x = vector[0];
  const y = vector[1];
  const z = vector[2];
  return [
    axes[0] * x + axes[3] * y + axes[6] * z,
    axes[1] * x + axes[4] * y + axes[7] * z,
    axes[2] * x + axes[5] * y + axes[8] * z,
  ];
}
