/** Usual values of a night: medians of the same train, target and filter, or of the train if these are too few. */
import type { Rules } from '../../../vocabulary/index.js';
import { groupBy, ownValue } from '../../collections.js';
import type { Frame } from '../../frame.js';
import { durationMs } from '../../interval.js';
import type { FrameStars, NightStars } from '../../stars.js';
import { mean, median } from '../../statistics.js';
import type { UsualStars } from '../facts.js';

interface Measured {
  readonly frame: Frame;
  readonly stars: FrameStars;
}

/**
 * The usual values for every light with measured stars.
 *
 * @returns by frame id; absent if too few frames of the train were measured
 */
export function usualStars(
  lights: readonly Frame[],
  stars: Pick<NightStars, 'frames'> | null,
  rules: Rules,
): ReadonlyMap<string, UsualStars> {
  const usual = new Map<string, UsualStars>();
  const measured = lights.flatMap((frame): Measured[] => {
    const own = ownValue(stars?.frames, frame.id);
    return own === undefined ? [] : [{ frame, stars: own }];
  });
  const bests = new Map(
    [...groupBy(measured, exposureKey).values()].flatMap((group) => {
      const best = bestThird(group, rules);
      return group.map(({ frame }) => [frame.id, best] as const);
    }),
  );
  for (const train of groupBy(measured, ({ frame }) => frame.train).values()) {
    const ofTrain = shapes(train, 'train', rules);
    for (const group of groupBy(train, fieldKey).values()) {
      const own = shapes(group, 'group', rules) ?? ofTrain;
      if (own === null) continue;
      for (const { frame } of group) usual.set(frame.id, { ...own, ...(bests.get(frame.id) ?? NO_BEST) });
    }
  }
  return usual;
}

const fieldKey = ({ frame: { train, target, filter } }: Measured): string => JSON.stringify([train, target, filter]);

/** Star counts are only comparable between exposures with the same detection limit. */
function exposureKey({ frame, stars }: Measured): string {
  const { train, target, filter, askedMs, header, exposure } = frame;
  const seconds = Math.round((askedMs ?? durationMs(exposure)) / 1000);
  return JSON.stringify([
    train,
    target,
    filter,
    seconds,
    header?.gain,
    header?.binning?.x,
    stars.by,
    stars.takenThrough,
  ]);
}

/** Medians of frames with enough stars; `null` for too few. */
function shapes(group: readonly Measured[], of: UsualStars['of'], rules: Rules): Omit<UsualStars, keyof Best> | null {
  const speaking = group.filter(({ stars }) => stars.count >= rules.minimumStars);
  if (speaking.length < rules.minimumGroupFrames) return null;
  const middle = (values: readonly (number | null)[]): number | null => {
    const known = values.filter((value) => value !== null);
    return known.length < rules.minimumGroupFrames ? null : median(known);
  };
  const elongation = middle(speaking.map(({ stars }) => stars.elongation));
  return {
    of,
    frames: speaking.length,
    fwhm: middle(speaking.map(({ stars }) => widthAcross(stars, elongation))),
    elongation,
  };
}

/** Trailed frames of a small group do not raise the usual width: along a trail the width is measured across it. */
function widthAcross({ fwhm, elongation: own }: FrameStars, usual: number | null): number | null {
  return fwhm === null || own === null || usual === null || own <= usual ? fwhm : fwhm / Math.sqrt(own / usual);
}

type Best = Pick<UsualStars, 'count' | 'sky'>;
const NO_BEST: Best = { count: null, sky: null };

/** The star count of the frames with most stars. */
function bestThird(group: readonly Measured[], rules: Rules): Best {
  if (group.length < rules.minimumGroupFrames) return NO_BEST;
  const all = group.map(({ stars }) => stars).sort((a, b) => b.count - a.count);
  const best = all.slice(0, Math.max(1, Math.round(all.length / 3)));
  return {
    count: mean(best.map(({ count }) => count)),
    sky: {
      background: median(best.map(({ background }) => background)),
      noise: median(best.map(({ noise }) => noise)),
    },
  };
}
