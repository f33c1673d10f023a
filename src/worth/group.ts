/** The assessment of one target, filter and train. */
import {
  extended,
  totalKey,
  UNNAMED,
  type JudgedFrame,
  type MeasureNote,
  type TotalWorth,
  type ZenithSky,
} from '../model/index.js';
import { frameWorth } from './frame-worth.js';
import type { Light, LightContext } from './light.js';
import type { MaybeWeighed } from './maybe-weighed.js';
import { measureTransparency } from './measured-flux.js';
import { usualExposureMs } from './settings.js';
import { subLength } from './sub-length.js';
import { totalWorth } from './total-worth.js';

export interface Group {
  readonly key: string;
  readonly light: Light;
  readonly frames: readonly MaybeWeighed[];
  readonly notes: readonly MeasureNote[];
  /** `null` when nothing is kept or the sky of a kept frame is unknown. */
  readonly worth: TotalWorth | null;
}

/** The reference of the sky of a train and filter. */
function zenithOf({ noise, measured }: Light): ZenithSky {
  const electronsPerSecond = noise.zenithSky;
  if (measured?.used) return { electronsPerSecond, from: measured.against };
  return { electronsPerSecond, from: noise.note.zenithFrom === 'rig-file' ? 'rig-file' : 'model' };
}

/** Frames of one key stand in one total. */
export function frameKey({ target, filter, train }: Pick<JudgedFrame, 'target' | 'filter' | 'train'>): string {
  return totalKey({ target: target ?? UNNAMED, filter: filter ?? UNNAMED, train });
}

/**
 * Assesses the lights of one target, filter and train.
 *
 * @param frames all of them, sorted by start
 * @param ofTrain all lights of the train, sorted by start
 * @param reference the reference of effective time, one for the rig
 */
export function weighGroup(
  key: string,
  frames: readonly JudgedFrame[],
  ofTrain: readonly JudgedFrame[],
  light: Light,
  { darkSkyMagArcsec2, referenceMs }: Pick<LightContext, 'darkSkyMagArcsec2' | 'referenceMs'>,
): Group {
  const kept = frames.filter((f) => f.verdict === 'kept');
  const usualMs = usualExposureMs(kept.length > 0 ? kept : frames);
  const flux = measureTransparency(frames, light.band.k);
  const weighed = frames.map((frame): MaybeWeighed => {
    const worth = frameWorth(frame, {
      band: light.band,
      noise: light.noise,
      darkSkyMagArcsec2,
      referenceSeconds: referenceMs / 1000,
      predicted: frame.sky && light.predicted(frame.sky),
      measuredSky: light.measured?.skies.get(frame.id),
      skyAgainst: light.measured?.against ?? 'night',
      measuredTransparency: flux?.transparencies.get(frame.id),
    });
    return worth ? extended(frame, { worth }) : frame;
  });
  const sub = subLength({ lights: weighed, ofTrain, seconds: usualMs / 1000, noise: light.noise });
  return {
    key,
    light,
    frames: weighed,
    notes: flux
      ? [
          {
            train: light.train,
            filter: light.filter,
            measure: 'flux',
            used: flux.used,
            frames: flux.frames,
            how: flux.how,
          },
        ]
      : [],
    worth: totalWorth(
      weighed.filter((f) => f.verdict === 'kept'),
      { referenceMs, zenith: zenithOf(light) },
      sub,
    ),
  };
}
