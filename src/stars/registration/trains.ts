/** Registers the reference frame of one train to that of another: any rotation, another scale, possibly mirrored. */
import type { Registration } from '../../model/index.js';
import { type Expected, type Reference, register, trainReferenceOf } from './register.js';
import type { StarList } from './star-list.js';
import { neighbourTriangles } from './triangles.js';

/** The rig file's facts on the two trains. */
export interface TrainsExpected {
  /** Pixels of the second train per pixel of the first, from focal lengths and pixel sizes; absent when unknown. */
  readonly scale?: number;
  /** Whether exactly one of the two sees the sky in a mirror; absent when unknown. */
  readonly mirrored?: boolean;
}

const BRIGHTEST = 150;
const NEIGHBOURS = 10;
/** Nominal focal lengths are off by a few percent. */
const SCALE_SHARE = 0.06;
/**
 * Two telescopes distort their fields differently: stars match less closely than within a train, px of the first train.
 */
const FINAL_PX = 2;
/** Scales worth trying if nothing is known. */
const ANY_SCALE = { least: 0.2, most: 5 };

/** Prepares the first train's reference stars. */
export function firstTrain(list: StarList): Reference {
  return trainReferenceOf(list, BRIGHTEST, NEIGHBOURS);
}

/**
 * The similarity from the first train's pixels to the second's. The fields must overlap by about 30 % and show much the
 * same bright stars. An expected scale that does not fit is dropped in favour of any.
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
