/** Sky and stars, field by field. The sky reveals the location: nothing of it is shared except pixel measurements. */
import { z } from 'zod';
import type {
  ElectronRates,
  FrameShift,
  FrameStars,
  DoubledStars,
  NightSky,
  NightStars,
  SkyNight,
  SkyPosition,
  StarUncertainties,
  TargetCurve,
} from '../../model/index.js';
import { count, flag, instantMs, number, positive, spanSchema, text, warning } from './common.js';
import { byFrame, coarse, hidden, list, maybe, open, optional, part } from './field.js';
import { pairs, pointings } from './pointing.js';

const event = instantMs.nullable();
const twilight = z.object({ duskMs: event, dawnMs: event });
const darkness = z.enum(['civil', 'nautical', 'astronomical']);

const almanac: z.ZodType<SkyNight> = z.object({
  sunsetMs: event,
  sunriseMs: event,
  twilight: z.object({ civil: twilight, nautical: twilight, astronomical: twilight }),
  window: z.object({
    span: spanSchema,
    kind: z.enum(['civil', 'nautical', 'astronomical', 'sunset', 'sun-minimum']),
    asked: darkness,
    sunMinimumDeg: number,
    sunMinimumMs: instantMs,
    note: text.optional(),
  }),
  moon: z.object({
    illumination: z.number().min(0).max(1),
    waxing: flag,
    riseMs: event,
    setMs: event,
  }),
});

const position: z.ZodType<SkyPosition> = z.object({
  atMs: instantMs,
  altitudeDeg: number,
  azimuthDeg: number,
  airmass: number.nullable(),
  moonAltitudeDeg: number,
  moonSeparationDeg: number,
  moonIllumination: number,
  moonPhaseAngleDeg: number,
  sunAltitudeDeg: number,
  limitDeg: number,
});

const curve: z.ZodType<TargetCurve> = z.object({
  target: text,
  points: z.array(position),
  up: z.array(spanSchema),
});

export const sky = part<NightSky>({
  // Darkness begins and ends with the Sun; the span of the activity does not.
  window: coarse(spanSchema, (_dark, how) => how.window),
  almanac: hidden(almanac.nullable(), null),
  positions: hidden(z.record(z.string(), position), {}),
  curves: hidden(z.array(curve), []),
  warnings: list(warning),
});

const shift = part<FrameShift>({ x: open(number), y: open(number), rotation: open(number), matched: open(count) });

/** One significant digit: the sky's brightness follows the Moon. */
const roughly = (value: number): number => Number(value.toPrecision(1));

const stars = part<FrameStars>({
  by: open(z.enum(['full', 'strips'])),
  count: open(count),
  fwhm: maybe(open(positive)),
  fwhmUncertainty: maybe(open(positive)),
  halfFlux: maybe(open(positive)),
  elongation: maybe(open(positive)),
  elongationUncertainty: optional(maybe(open(positive))),
  direction: maybe(open(number)),
  uncertainties: optional(
    part<StarUncertainties>({
      halfFlux: maybe(open(positive)),
      direction: maybe(open(positive)),
      background: maybe(coarse(positive, roughly)),
      noise: maybe(coarse(positive, roughly)),
      flux: maybe(coarse(positive, roughly)),
    }),
  ),
  agreement: maybe(open(number)),
  background: coarse(number, roughly),
  noise: coarse(number, roughly),
  electronsPerSecond: optional(
    part<ElectronRates>({ background: coarse(number, roughly), noise: coarse(number, roughly) }),
  ),
  // Extinction follows the altitude.
  flux: maybe(coarse(number, (value) => Math.round(value * 10) / 10)),
  takenThrough: optional(open(text)),
  doubled: optional(
    part<DoubledStars>({ x: open(number), y: open(number), share: open(positive), significance: open(positive) }),
  ),
  saturated: open(number),
  shift: maybe(shift),
  zones: optional(open(z.array(number.nullable()))),
  zoneUncertainties: optional(open(z.array(number.nullable()))),
});

export const nightStars = part<NightStars>({
  frames: byFrame(stars),
  pointings,
  pairs,
  warnings: list(warning),
});
