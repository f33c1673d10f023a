/**
 * Stars that the guiding made larger, which no refocus makes small.
 */
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

/** FWHM squared of errors that scatter normally on two axes, by their RMS squared: 8 ln 2 / 2. */
const WIDTH_SQUARED = 4 * Math.LN2;
/** Of the FWHM squared, what is too much where stars are a tenth larger, as much as a refocus is due for. */
const NOTABLE_SHARE = 1 - 1 / 1.1 ** 2;

/**
 * Whether the guiding of a frame, beyond that of the train's calm quarter, makes its stars larger by a tenth. What is
 * rough all night makes all stars larger alike, and is no reason why some are.
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

/** What widens stars: the RMS about the mean, arcseconds. */
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
