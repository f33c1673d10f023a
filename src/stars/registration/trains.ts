/**
 * Lays the reference frame of one train on that of another: any rotation, another scale, perhaps a mirror.
 */
import type { Registration } from '../../model/index.js';
import { type Expected, type Reference, register, trainReferenceOf } from './register.js';
import type { StarList } from './star-list.js';
import { neighbourTriangles } from './triangles.js';

/** What the rig says of the two trains. */
export interface TrainsExpected {
  /** Pixels of the second train for one of the first, by focal lengths and pixel sizes; absent when unknown. */
  readonly scale?: number;
  /** Whether exactly one of the two sees the sky in a mirror; absent when unknown. */
  readonly mirrored?: boolean;
}

const BRIGHTEST = 150;
const NEIGHBOURS = 10;
/** Focal lengths on paper are off by a few percent. */
const SCALE_SHARE = 0.06;
/**
 * Two telescopes bend their fields differently: stars agree less closely than within a train, px of the first train.
 */
const FINAL_PX = 2;
/** Scales worth a trial where nothing is known. */
const ANY_SCALE = { least: 0.2, most: 5 };

/** Makes the first train's reference stars ready. */
export function firstTrain(list: StarList): Reference {
  return trainReferenceOf(list, BRIGHTEST, NEIGHBOURS);
}

/**
 * The similarity from the first train's pixels to the second's. The fields must overlap by about 30 % and see much the
 * same bright stars. A scale that was expected and does not fit is given up for any.
 */
export function registerTrains(first: Reference, second: StarList, expected: TrainsExpected = {}): Registration {
  const { scale } = expected;
  if (scale !== undefined && scale > 0) {
    // Triangles are compared from the second train to the first, hence the inverse.
    const near = { least: 1 / (scale * (1 + SCALE_SHARE)), most: (1 + SCALE_SHARE) / scale };
    const answer = register(first, second, expectedOf(near, expected.mirrored));
    if (answer.state === 'registered' || answer.why === 'too-few-stars') return answer;
  }
  return register(first, second, expectedOf(ANY_SCALE, expected.mirrored));
}

function expectedOf(scale: { least: number; most: number }, mirrored: boolean | undefined): Expected {
  return {
    likeness: {
      sidePx: 1.5,
      sideShare: 0.001,
      scale,
      mirrored: mirrored === undefined ? 'either' : mirrored ? 'yes' : 'no',
    },
    voters: BRIGHTEST,
    coarsePx: 8,
    finalPx: FINAL_PX,
    triangles: (list) => neighbourTriangles(list, BRIGHTEST, NEIGHBOURS),
  };
}
