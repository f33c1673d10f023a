/** Nights that are bad throughout. Verdicts compare frames with each other and cannot detect it; a notice does. */
import { counted, decimal } from '../../../vocabulary/index.js';
import { groupBy, ownValue } from '../../collections.js';
import type { Frame } from '../../frame.js';
import { sensorScaleArcsec, type GatheredNight } from '../../gathered.js';
import type { NightStars } from '../../stars.js';
import { median } from '../../statistics.js';
import type { Warning } from '../../warning.js';
import { AGREEMENT_MIN } from './pixels.js';

/**
 * Stars whose usual width exceeds both are wide, whatever the sampling: arcseconds because of seeing and focus, pixels
 * as stored because of a short focal length or binning. Common practice, no source.
 */
const WIDE_ARCSEC = 4;
const WIDE_PX = 3;
const WIDE_LIMIT = `above ${WIDE_ARCSEC}″ and ${WIDE_PX} px`;

interface MeasuredNight {
  readonly gathered: Pick<GatheredNight, 'trains' | 'rules'>;
  readonly timeline: { readonly frames: readonly Frame[] };
  readonly stars: Pick<NightStars, 'frames'> | null;
}

/** One notice for each train whose stars were wide or trailed in most of its frames. */
export function wholeNightNotices({ gathered: { trains, rules }, timeline, stars }: MeasuredNight): Warning[] {
  if (stars === null) return [];
  const byTrain = groupBy(
    timeline.frames.filter(({ kind }) => kind === 'light'),
    ({ train }) => train,
  );
  return trains.flatMap((train): Warning[] => {
    const { id, pixelScaleArcsec } = train;
    const speaking = (byTrain.get(id) ?? []).flatMap((frame) => {
      const { count = 0, fwhm = null, elongation = null, agreement = null } = ownValue(stars.frames, frame.id) ?? {};
      if (fwhm === null || elongation === null || agreement === null || count < rules.minimumStars) return [];
      return [{ fwhm, elongation, agreement }];
    });
    if (speaking.length < rules.minimumGroupFrames) return [];
    const usual = (of: (one: (typeof speaking)[number]) => number): number => median(speaking.map(of));
    // Widths are of sensor pixels.
    const sensorScale = sensorScaleArcsec(train);
    const arcsec = sensorScale === undefined ? null : usual((one) => one.fwhm) * sensorScale;
    const stored = arcsec === null || pixelScaleArcsec === undefined ? null : arcsec / pixelScaleArcsec;
    const elongation = usual((one) => one.elongation);
    const isWide = arcsec !== null && stored !== null && arcsec > WIDE_ARCSEC && stored > WIDE_PX;
    const isTrailed = elongation > rules.trailedDoubtfulElongation && usual((one) => one.agreement) > AGREEMENT_MIN;
    const traits = [
      ...(isWide
        ? [`wide (${decimal(arcsec, 1)}″ or ${decimal(stored, 1)} px usual; ${WIDE_LIMIT} counts as wide)`]
        : []),
      ...(isTrailed ? [`trailed (axis ratio ${decimal(elongation, 2)} usual)`] : []),
    ];
    if (traits.length === 0) return [];
    return [
      {
        code: 'stars-bad-all-night',
        message:
          `${id}’s stars were ${traits.join(' and ')} all night, by ${counted(speaking.length, 'frame')}. Verdicts ` +
          'compare frames with each other: a kept frame is only as good as the others. ' +
          (isTrailed ? 'Look at tracking, balance, flexure and tilt.' : 'Look at focus, collimation, dew and seeing.'),
      },
    ];
  });
}
