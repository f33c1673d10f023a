/** Two trains on one target, registered to one another. */
import type { PairPointing } from '../../model/index.js';
import { flexureOf, pairGeometry } from '../pair/index.js';
import { firstTrain, registerTrains } from '../registration/index.js';
import type { AimedGroup } from './train-pointing.js';

/** A train's pointings with the scale of its pixels. */
type Scaled = AimedGroup & { readonly scaleArcsec: number };

/** The geometry and the flexure of two trains; `null` if their references cannot be registered. */
export function pairPointing(first: Scaled, second: AimedGroup): PairPointing | null {
  const expected = second.scaleArcsec === null ? {} : { scale: first.scaleArcsec / second.scaleArcsec };
  const laid = registerTrains(
    firstTrain(first.group.starsOf(first.reference)),
    second.group.starsOf(second.reference),
    expected,
  );
  if (laid.state === 'unregistered') return null;
  const geometry = pairGeometry(
    laid.similarity,
    { size: first.group, scaleArcsec: first.scaleArcsec },
    { size: second.group },
  );
  const flexure = flexureOf(
    first.aims,
    second.aims,
    laid.similarity,
    second.scaleArcsec ?? first.scaleArcsec / geometry.scaleRatio,
  );
  const { a, b } = geometry.overlapPercent;
  return {
    target: first.group.target,
    trains: [first.group.train, second.group.train],
    scaleRatio: geometry.scaleRatio,
    rotation: geometry.rotationDeg,
    offsetArcsec: geometry.offsetArcsec,
    overlap: { [first.group.train]: a / 100, [second.group.train]: b / 100 },
    flexureArcsecPerHour: flexure?.overall.arcsecPerHour ?? null,
    matched: laid.matched,
    geometry,
    flexure,
  };
}
