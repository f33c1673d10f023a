/**
 * The bounds of a share. Unknowns apply to a whole night or longer, so the bounds of frames are added linearly, not in
 * quadrature.
 */
import type { WorthDoubt } from '../model/index.js';

/** Variation of a moonless sky from night to night, magnitudes: airglow, dust, lamps. Common practice, no source. */
const SKY_OF_NIGHTS_MAG = 0.2;
/**
 * Accuracy of the moonlight model: 8 to 23 % in V according to its authors (Krisciunas & Schaefer 1991); in other bands
 * ±0.3 mag.
 */
const MOON_V_SHARE = 0.2;
const MOON_OTHER_MAG = 0.3;
/** Maximum unnoticed haze in a sky called clear, magnitudes. Common practice, no source. */
const HAZE_MAG = 0.2;
/**
 * Maximum difference between the best of a night's frames and the best of all nights, magnitudes. Common practice, no
 * source.
 */
const CLEAR_NIGHTS_MAG = 0.05;

const ratio = (mag: number): number => 10 ** (0.4 * mag);

export interface BoundedTerms {
  /** Sky without the Moon, and moonlight, both ÷ dark sky at the zenith. */
  readonly moonless: number;
  readonly moon: number;
  readonly transparency: number;
  /** `rig-file`: measured relative to the rig file's value; `night`: relative to the night's own darkest. */
  readonly sky: 'modelled' | 'night' | 'rig-file';
  readonly air: 'modelled' | 'measured';
  /** Whether the filter lies where the model of moonlight was published. */
  readonly isVisual: boolean;
  /** The share under a sky and through an air. */
  readonly share: (skyRatio: number, transparency: number) => number;
}

/** The minimum and maximum share, and why they differ. */
export function worthBounds({ moonless, moon, transparency, sky, air, isVisual, share }: BoundedTerms): {
  readonly lowShare: number;
  readonly highShare: number;
  readonly doubts: readonly WorthDoubt[];
} {
  const isModelledMoon = sky === 'modelled' && moon > 0;
  const [moonUp, moonDown] = !isModelledMoon
    ? [1, 1]
    : isVisual
      ? [1 + MOON_V_SHARE, 1 - MOON_V_SHARE]
      : [ratio(MOON_OTHER_MAG), ratio(-MOON_OTHER_MAG)];
  const skyMag = sky === 'rig-file' ? 0 : SKY_OF_NIGHTS_MAG;
  const thin = air === 'modelled' ? HAZE_MAG : CLEAR_NIGHTS_MAG;
  return {
    // The Moon's contribution is the same on a dark night and a bright one.
    lowShare: share(moonless * ratio(skyMag) + moon * moonUp, transparency * ratio(-thin)),
    highShare: share(
      moonless * ratio(-skyMag) + moon * moonDown,
      air === 'modelled' ? transparency : transparency * ratio(CLEAR_NIGHTS_MAG),
    ),
    doubts: shared([
      air === 'modelled' ? 'clear-air' : 'clear-nights',
      ...(isModelledMoon ? (['moon-model'] as const) : []),
      ...(sky === 'rig-file' ? [] : (['sky-of-nights'] as const)),
    ]),
  };
}

const lists = new Map<string, readonly WorthDoubt[]>();

/** There are eight combinations of doubts, shared by tens of thousands of frames. */
function shared(doubts: readonly WorthDoubt[]): readonly WorthDoubt[] {
  const key = doubts.join(' ');
  const known = lists.get(key) ?? doubts;
  lists.set(key, known);
  return known;
}
