/** Registers the frames of one train and target to their reference frames. */
import { sortedBy } from '../../model/collections.js';
import type {
  PixelPoint,
  Registered,
  RegisteredField,
  RegisteredFrame,
  RegisteredFrames,
  SensorSize,
  Similarity,
  Star,
  StarReading,
  Unregistered,
} from '../../model/index.js';
import { sharedField } from './field-overlap.js';
import { hasMoved } from './motion.js';
import { type Reference, referenceOf, register, SAME_TRAIN } from './register.js';
import { IDENTITY, shiftOf } from './similarity.js';
import { type StarList, starListOf } from './star-list.js';
import { throughOthers } from './through-others.js';

/** What registration needs of a frame. */
export interface FrameToRegister {
  /** Names the frame; unique. */
  readonly key: string;
  readonly startMs: number;
  readonly by: StarReading;
  readonly stars: readonly Star[];
  /** Median FWHM, px; `null` where none could be measured. */
  readonly fwhm: number | null;
}

/** Frames that overlap the field by less have a reference of their own: panels of a mosaic overlap by a tenth. */
const LEAST_SHARED = 0.5;
/** Number of references to which nothing could be registered before giving up: under cloud no two frames match. */
const MOST_LONELY = 8;
/** Fewer frames on a reference are not a field that others may be found by. */
const FEWEST_BESIDE = 3;
/** The sharpest of the frames with nearly the most stars is the reference. */
const ALMOST_MOST = 0.9;

interface Prepared {
  readonly frame: FrameToRegister;
  readonly list: StarList;
}

/**
 * Registers each frame to the reference of its field: the reference is the sharpest of the frames with most stars;
 * frames of another field are registered to a reference of their own. The order of the input does not matter.
 *
 * @param fixed positions on the sensor that are not stars (`sensorFixed`)
 */
export function registerFrames(
  frames: readonly FrameToRegister[],
  size: SensorSize,
  fixed: readonly PixelPoint[] = [],
): RegisteredFrames {
  const inTime = [...frames].sort((a, b) => a.startMs - b.startMs || (a.key < b.key ? -1 : 1));
  const prepared = inTime.map((frame): Prepared => ({ frame, list: starListOf(frame.stars, fixed) }));
  const failures = new Map<string, Unregistered>();
  const found: { field: Omit<RegisteredField, 'onFirst'>; reference: Reference }[] = [];
  let left = prepared;
  let lonely = 0;
  while (left.length > 0 && lonely < MOST_LONELY) {
    const chosen = chooseReference(left);
    const reference = referenceOf(chosen.list);
    const { registered, failed } = layOn(reference, chosen, left, size);
    for (const [key, why] of failed) if (!failures.has(key)) failures.set(key, why);
    if (registered.length > 1 && hasMoved(registered, size)) {
      found.push({ field: { reference: chosen.frame.key, frames: registered }, reference });
    } else {
      lonely++;
      const why = registered.length > 1 ? 'nothing-moved' : 'alone';
      for (const f of registered)
        failures.set(f.key, reasonOf(failures.get(f.key), why, registered.length, chosen.list));
    }
    const done = new Set(registered.map((f) => f.key));
    left = left.filter((p) => !done.has(p.frame.key));
  }
  found.sort((a, b) => b.field.frames.length - a.field.frames.length || timeOf(a) - timeOf(b));
  const laid = new Set(found.flatMap((f) => f.field.frames.map((r) => r.key)));
  return {
    fields: found.map((f) => ({ ...f.field, onFirst: onFirst(found[0]?.reference, f.reference) })),
    unregistered: prepared.flatMap((p) => {
      const why = failures.get(p.frame.key);
      return laid.has(p.frame.key) || !why ? [] : [{ key: p.frame.key, ...stripsNoted(why, p.frame.by) }];
    }),
  };
}

function timeOf(found: { field: Omit<RegisteredField, 'onFirst'> }): number {
  return found.field.frames[0]?.startMs ?? 0;
}

/** A single frame gets the reason why the others' reference rejected it, if one did. */
function reasonOf(
  before: Unregistered | undefined,
  why: 'alone' | 'nothing-moved',
  frames: number,
  list: StarList,
): Unregistered {
  if (why === 'alone' && before && before.why !== 'no-match') return before;
  if (list.count < 6) return { state: 'unregistered', why: 'too-few-stars', matched: 0 };
  return { state: 'unregistered', why, matched: frames > 1 ? list.count : 0 };
}

/** With strips the remedy is different: read the frame in full. */
function stripsNoted(why: Unregistered, by: StarReading): Unregistered {
  const isHelped = why.why === 'too-few-stars' || why.why === 'no-match' || why.why === 'as-a-random-field';
  return by === 'strips' && isHelped ? { ...why, why: 'strips-not-enough' } : why;
}

/** The frame with most stars; of those with nearly as many the sharpest; of equals the earliest. */
function chooseReference(candidates: readonly Prepared[]): Prepared {
  const most = Math.max(...candidates.map((p) => p.list.count));
  const rich = candidates.filter((p) => p.list.count >= ALMOST_MOST * most);
  return rich.reduce((best, p) => ((p.frame.fwhm ?? Infinity) < (best.frame.fwhm ?? Infinity) ? p : best));
}

function layOn(
  reference: Reference,
  chosen: Prepared,
  frames: readonly Prepared[],
  size: SensorSize,
): { readonly registered: readonly RegisteredFrame[]; readonly failed: ReadonlyMap<string, Unregistered> } {
  const laid: { readonly frame: FrameToRegister; readonly startMs: number; list: StarList; on: Registered }[] = [];
  const failed = new Map<string, Unregistered>();
  let guess: Similarity | undefined;
  const take = ({ frame, list }: Prepared, on: Registered): void => {
    if (sharedField(on.similarity, size, size) < LEAST_SHARED) {
      failed.set(frame.key, { state: 'unregistered', why: 'alone', matched: on.matched });
      return;
    }
    failed.delete(frame.key);
    laid.push({ frame, startMs: frame.startMs, list, on });
    if (frame !== chosen.frame) guess = on.similarity;
  };
  for (const one of frames) {
    const answer = one.frame === chosen.frame ? itself(one.list) : register(reference, one.list, SAME_TRAIN, guess);
    if (answer.state === 'unregistered') failed.set(one.frame.key, answer);
    else take(one, answer);
  }
  // A single frame, or one of two, says nothing about a third.
  const through = laid.length < FEWEST_BESIDE ? undefined : throughOthers(laid);
  for (const one of through ? frames : []) {
    const answer = failed.has(one.frame.key) ? through?.({ startMs: one.frame.startMs, list: one.list }) : null;
    if (answer) take(one, answer);
  }
  const registered = laid.map(({ frame: { key, startMs }, on }): RegisteredFrame => {
    return { ...on, key, startMs, shift: shiftOf(on.similarity, on.matched, size) };
  });
  return { registered: sortedBy(registered, ({ startMs }) => startMs), failed };
}

function itself(list: StarList): Registered {
  return { state: 'registered', similarity: IDENTITY, matched: list.count, residualPx: 0, falseAlarm: 0 };
}

function onFirst(first: Reference | undefined, other: Reference): Similarity | null {
  if (!first) return null;
  if (first === other) return IDENTITY;
  const answer = register(first, other.list, SAME_TRAIN);
  return answer.state === 'registered' ? answer.similarity : null;
}
