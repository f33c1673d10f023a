/** Stars enlarged by guiding, which no refocus corrects. */
import {
  knownFwhmArcsec,
  lightsOf,
  oncePer,
  ownValue,
  quantile,
  type GuidingSummary,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';

/** FWHM² per RMS² for normally distributed errors on two axes: 8 ln 2 / 2. */
const WIDTH_SQUARED = 4 * Math.LN2;
/** Excess of FWHM² at which stars are a tenth larger, the limit for a refocus. */
const NOTABLE_SHARE = 1 - 1 / 1.1 ** 2;

/**
 * Whether the guiding of a frame, beyond the train's calmest quarter, enlarges its stars by a tenth. Guiding that is
 * rough all night enlarges all stars equally, and does not explain differences.
 */
export function isGrownByGuiding(frame: JudgedFrame, night: NightFacts): boolean {
  const fwhm = knownFwhmArcsec(
    ownValue(night.stars?.frames, frame.id),
    frame.header,
    night.gathered.trains.find(({ id }) => id === frame.train),
  );
  if (!frame.guiding || fwhm === undefined) return false;
  const excess = jitterArcsec(frame.guiding) ** 2 - calmRms(night, frame.train) ** 2;
  return WIDTH_SQUARED * excess >= NOTABLE_SHARE * fwhm ** 2;
}

/** The part that widens stars: the RMS about the mean, arcseconds. */
export const jitterArcsec = (guiding: GuidingSummary): number => guiding.jitterRmsArcsec ?? guiding.totalRmsArcsec;

function calmRms(night: NightFacts, train: string): number {
  const known = calmIn(night);
  const calm =
    known.get(train) ??
    quantile(
      lightsOf(night, train).flatMap(({ guiding }) => (guiding ? [jitterArcsec(guiding)] : [])),
      0.25,
    );
  known.set(train, calm);
  return calm;
}

const calmIn = oncePer((_night: NightFacts) => new Map<string, number>());
