/** The lights of a night grouped by what they show, ready for registration. */
import { groupBy, UNNAMED, type Frame } from '../../model/index.js';
import type { FrameToRegister } from '../registration/index.js';
import type { MeasuredFrame } from '../types.js';

/** A light and its measurement. */
export interface MeasuredLight {
  readonly frame: Frame;
  readonly measured: MeasuredFrame;
}

/** Lights of one train, target and size of frame. */
export interface LightGroup {
  readonly train: string;
  readonly target: string;
  readonly width: number;
  readonly height: number;
  readonly lights: readonly MeasuredLight[];
}

/** What registration needs of a light. */
export function toRegister({ frame, measured: { stars, list } }: MeasuredLight): FrameToRegister {
  return { key: frame.id, startMs: frame.exposure.startMs, by: stars.by, stars: list.stars, fwhm: stars.fwhm };
}

/**
 * By train, target and size: frames with other binning, or cropped, have different pixels. The largest groups first.
 */
export function groupsOf(lights: readonly MeasuredLight[]): readonly LightGroup[] {
  const groups = groupBy(lights, ({ frame: { train, target = UNNAMED }, measured: { list } }) =>
    JSON.stringify([train, target, list.width, list.height]),
  );
  return [...groups.values()]
    .flatMap((own): LightGroup[] => {
      const [first] = own;
      if (!first) return [];
      const { train, target = UNNAMED } = first.frame;
      const { width, height } = first.measured.list;
      return [{ train, target, width, height, lights: own }];
    })
    .sort((a, b) => b.lights.length - a.lights.length);
}
