/**
 * Between what a share must be. What is not known holds for a whole night or longer, so the bounds of frames are added
 * up as they are, and not as if they were chance.
 */
import type { WorthDoubt } from '../model/index.js';

/** A moonless sky differs from night to night by this, magnitudes: airglow, dust, lamps. Common practice, no source. */
const SKY_OF_NIGHTS_MAG = 0.2;
/** The model of moonlight: 8 to 23 % in V by its authors (Krisciunas & Schaefer 1991); in other bands ±0.3 mag. */
const MOON_V_SHARE = 0.2;
const MOON_OTHER_MAG = 0.3;
/** Haze that nobody notices takes up to this from a sky called clear, magnitudes. Common practice, no source. */
const HAZE_MAG = 0.2;
/**
 * The best of a night's frames are still this far from the best of all nights, magnitudes. Common practice, no source.
 */
const CLEAR_NIGHTS_MAG = 0.05;

const ratio = (mag: number): number => 10 ** (0.4 * mag);

export interface BoundedTerms {
  /** Sky without the Moon, and moonlight, both ÷ dark sky at the zenith. */
  readonly moonless: number;
  readonly moon: number;
  readonly transparency: number;
  /** `rig-file`: measured against what the rig file fixes; `night`: against the night's own darkest. */
  readonly sky: 'modelled' | 'night' | 'rig-file';
  readonly air: 'modelled' | 'measured';
  /** Whether the filter lies where the model of moonlight was published. */
  readonly isVisual: boolean;
  /** The share under a sky and through an air. */
  readonly share: (skyRatio: number, transparency: number) => number;
}

/** The least and the greatest share, and why they differ. */
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
    // What moonlight adds is the same on a dark night and a bright one.
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

/** There are eight lists of doubts, and tens of thousands of frames that have one of them. */
function shared(doubts: readonly WorthDoubt[]): readonly WorthDoubt[] {
  const key = doubts.join(' ');
  const known = lists.get(key) ?? doubts;
  lists.set(key, known);
  return known;
}
