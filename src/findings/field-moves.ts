/** What became of a field that moved under an open shutter, by the places of the frames beside it. */
import {
  coveredMs,
  clip,
  durationMs,
  intersect,
  lightsOf,
  ownValue,
  sensorScaleArcsec,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';

/** Whether the field was still where the move left it in the next frame, or back at its place. */
export type Went = 'stayed' | 'back' | 'unknown';

/** Frames farther apart than this do not tell: the field drifts, and other moves come between. */
const NEAR_MS = 15 * 60_000;
/** A second image this many times its partner's star width off would show in that train's frames too. */
const PLAIN = 1.5;
/** The share of an exposure during which another train's shutter was open, for it to be a witness. */
const WITNESSED = 0.9;

/**
 * Compares the frames just before and after: they are apart by the way between both images if the field stayed, and
 * together if it came back.
 *
 * @param own the train's lights, in order
 */
export function wentOf(frame: JudgedFrame, own: readonly JudgedFrame[], night: NightFacts): Went {
  const second = ownValue(night.stars?.frames, frame.id)?.doubled;
  const at = own.indexOf(frame);
  const [before, after] = [own[at - 1], own[at + 1]].map((beside) => placeOf(beside, frame, night));
  if (second === undefined || !before || !after) return 'unknown';
  const binning = frame.header?.binning ?? { x: 1, y: 1 };
  const wayPx = Math.hypot(second.x / binning.x, second.y / binning.y);
  const apartPx = Math.hypot(after.x - before.x, after.y - before.y);
  if (apartPx < wayPx / 2) return 'back';
  return apartPx < 1.5 * wayPx ? 'stayed' : 'unknown';
}

/** Where a neighbour's field was, px as stored; `undefined` where it does not tell. */
function placeOf(
  beside: JudgedFrame | undefined,
  frame: JudgedFrame,
  night: NightFacts,
): { readonly x: number; readonly y: number } | undefined {
  if (beside === undefined || beside.target !== frame.target) return undefined;
  const apartMs = Math.max(
    beside.exposure.startMs - frame.exposure.endMs,
    frame.exposure.startMs - beside.exposure.endMs,
  );
  const stars = ownValue(night.stars?.frames, beside.id);
  return apartMs > NEAR_MS || stars?.doubled !== undefined ? undefined : (stars?.shift ?? undefined);
}

/** Whether another train, exposing at the time, saw the move; `null` without one whose stars would have shown it. */
export function isSeenBesides(frame: JudgedFrame, night: NightFacts): boolean | null {
  const second = ownValue(night.stars?.frames, frame.id)?.doubled;
  const scale = scaleOf(night, frame.train);
  if (second === undefined || scale === undefined) return null;
  const wayArcsec = Math.hypot(second.x, second.y) * scale;
  const answers = night.gathered.trains.flatMap(({ id }): boolean[] => {
    const otherScale = scaleOf(night, id);
    if (id === frame.train || otherScale === undefined) return [];
    const meanwhile = lightsOf(night, id).filter(({ exposure }) => intersect(exposure, frame.exposure) !== null);
    const stars = meanwhile.map((other) => ownValue(night.stars?.frames, other.id));
    if (stars.some((s) => s?.doubled !== undefined)) return [true];
    const wouldShow = stars.every(
      (s) =>
        s !== undefined &&
        s.fwhm !== null &&
        s.count >= night.gathered.rules.minimumStars &&
        wayArcsec >= PLAIN * s.fwhm * otherScale,
    );
    const openMs = coveredMs(
      clip(
        meanwhile.map(({ exposure }) => exposure),
        frame.exposure,
      ),
    );
    return wouldShow && openMs >= WITNESSED * durationMs(frame.exposure) ? [false] : [];
  });
  return answers.includes(true) ? true : (answers[0] ?? null);
}

function scaleOf({ gathered }: NightFacts, train: string): number | undefined {
  const own = gathered.trains.find(({ id }) => id === train);
  return own && sensorScaleArcsec(own);
}
