/**
 * One camera that went from one telescope to another during the night: two trains that never expose at the same time,
 * because there is one sensor.
 */
import { groupBy, itemAt } from './collections.js';
import type { Frame, HeaderFacts } from './frame.js';
import type { Interval } from './interval.js';

/** A light, and what its header says of camera and optics. */
export interface CameraLight {
  readonly exposure: Interval;
  readonly header?: Pick<HeaderFacts, 'instrument' | 'focalLengthMm'> | undefined;
}

/** A camera that was on one train's telescope, and then on another's. */
export interface CameraTurn {
  readonly from: string;
  readonly to: string;
  readonly instrument: string;
  /** End of the last light on the first, begin of the first on the second, UTC ms. */
  readonly endMs: number;
  readonly beginMs: number;
}

/** Focal lengths that differ by less are one telescope's. */
const OTHER_OPTICS = 0.05;

/**
 * Whether a camera changed from the telescope of the first lights to that of the second: all of these name one camera
 * and come after all of the first, and the focal lengths that headers state differ. Fewer than five lights on either
 * are no evidence (common practice, no source).
 */
export function isCameraMoved(before: readonly CameraLight[], after: readonly CameraLight[]): boolean {
  if (before.length < 5 || after.length < 5) return false;
  const names = new Set([...before, ...after].map(({ header }) => header?.instrument?.trim().toLowerCase()));
  if (names.size !== 1 || names.has(undefined) || names.has('')) return false;
  const [one, other] = [before, after].map((own) => itemAt(own, 0).header?.focalLengthMm);
  if (one === undefined || other === undefined || Math.abs(one - other) <= OTHER_OPTICS * one) return false;
  const endMs = Math.max(...before.map(({ exposure }) => exposure.endMs));
  return after.every(({ exposure }) => exposure.startMs >= endMs);
}

/** The turns of a night's cameras. */
export function cameraTurns(frames: readonly Frame[]): CameraTurn[] {
  const byTrain = [
    ...groupBy(
      frames.filter(({ kind }) => kind === 'light'),
      ({ train }) => train,
    ),
  ];
  return byTrain.flatMap(([from, before]) =>
    byTrain.flatMap(([to, after]): CameraTurn[] => {
      const instrument = itemAt(after, 0).header?.instrument;
      if (from === to || instrument === undefined || !isCameraMoved(before, after)) return [];
      return [
        {
          from,
          to,
          instrument,
          endMs: Math.max(...before.map(({ exposure }) => exposure.endMs)),
          beginMs: Math.min(...after.map(({ exposure }) => exposure.startMs)),
        },
      ];
    }),
  );
}
