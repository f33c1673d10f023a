/**
 * Where a train's stars were, and from when to when. A frame in which every star appears twice has two places, and the
 * light in each tells when the mount moved.
 */
import { ownValue, type DoubledStars, type Frame, type FrameShift, type NightStars } from '../model/index.js';

/** A place of the field during one exposure, or during a part of it. */
export interface Place {
  readonly startMs: number;
  readonly endMs: number;
  readonly target: string | undefined;
  readonly shift: FrameShift;
}

type Known = Place & { readonly doubled: DoubledStars | undefined };

/** The places of a train's registered frames, in order of time. */
export function placesOf(frames: readonly Frame[], stars: Pick<NightStars, 'frames'>): Place[] {
  const known = [...frames]
    .sort((a, b) => a.exposure.startMs - b.exposure.startMs)
    .flatMap((frame): Known[] => {
      const own = ownValue(stars.frames, frame.id);
      const shift = own?.shift ?? null;
      if (own === undefined || shift === null) return [];
      const binning = frame.header?.binning ?? { x: 1, y: 1 };
      const { doubled } = own;
      const stored = doubled && { ...doubled, x: doubled.x / binning.x, y: doubled.y / binning.y };
      return [{ ...frame.exposure, target: frame.target, shift, doubled: stored }];
    });
  const places: Place[] = [];
  known.forEach(({ doubled, ...whole }, i) => {
    const before = places.at(-1)?.shift ?? whole.shift;
    const after = known[i + 1]?.shift ?? whole.shift;
    places.push(...(doubled === undefined ? [whole] : halves(whole, doubled, before, after)));
  });
  return places;
}

/**
 * Both parts of an exposure during which the mount moved. Registration finds one image or the other, and nothing in the
 * frame tells which was first: the way from the place before to the place after is the shortest.
 */
function halves(whole: Place, { x, y, share }: DoubledStars, before: FrameShift, after: FrameShift): [Place, Place] {
  const { shift, startMs, endMs } = whole;
  const angle = (shift.rotation * Math.PI) / 180;
  // A shift leads from the frame to its reference: stars that moved one way shift it the other way.
  const dx = y * Math.sin(angle) - x * Math.cos(angle);
  const dy = -x * Math.sin(angle) - y * Math.cos(angle);
  const fainter = { ...shift, x: shift.x + dx, y: shift.y + dy };
  const brighter = { ...shift, x: shift.x - dx, y: shift.y - dy };
  const ways = [
    { first: shift, last: fainter, share: 1 - share },
    { first: fainter, last: shift, share },
    { first: brighter, last: shift, share: 1 - share },
    { first: shift, last: brighter, share },
  ];
  const length = (way: (typeof ways)[number]): number => apart(before, way.first) + apart(way.last, after);
  const shortest = ways.reduce((best, way) => (length(way) < length(best) ? way : best));
  const movedMs = startMs + shortest.share * (endMs - startMs);
  return [
    { ...whole, endMs: movedMs, shift: shortest.first },
    { ...whole, startMs: movedMs, shift: shortest.last },
  ];
}

function apart(a: FrameShift, b: FrameShift): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
