/**
 * Pointing of trains and pairs, field by field: pixels and rates reveal no location; times are shared like all others.
 */
import { z } from 'zod';
import type {
  CameraTurnSeen,
  DitherPlace,
  DitherSpread,
  DitherStep,
  DriftRate,
  DriftStretch,
  FieldRotation,
  Flexure,
  PairGeometry,
  PairPointing,
  TrainDrift,
  TrainPointing,
} from '../../model/index.js';
import { UNREGISTERED_REASONS } from '../../model/index.js';
import { count, flag, instant, number, positive, text } from './common.js';
import { coarse, hidden, list, maybe, open, part, type Field } from './field.js';

const point = z.object({ x: number, y: number });
const size = z.object({ width: positive, height: positive });

const rateFields = {
  xPxPerHour: open(number),
  yPxPerHour: open(number),
  pxPerHour: open(positive),
  uncertaintyPxPerHour: open(positive),
  arcsecPerHour: open(positive),
  uncertaintyArcsecPerHour: open(positive),
  frames: open(count),
};
const rate = part<DriftRate>(rateFields);
const stretch = part<DriftStretch>({ ...rateFields, flipped: open(flag), startMs: instant, endMs: instant });

const drift = part<TrainDrift>({
  by: open(z.enum(['between-dithers', 'through-dithers'])),
  sides: list(stretch),
  hours: list(stretch),
});

const rotation = part<FieldRotation>({
  degPerHour: open(number),
  uncertaintyDegPerHour: open(positive),
  frames: open(count),
  cornerTrailPx: open(positive),
  subSeconds: open(positive),
  // The two together reveal the target's declination, no more than its name does.
  polarErrorAtLeastArcmin: maybe(open(positive)),
  uncertaintyArcmin: maybe(open(positive)),
});

const ditherPlace = part<DitherPlace>({
  startMs: instant,
  frames: open(count),
  flipped: open(flag),
  x: open(number),
  y: open(number),
});

const step = part<DitherStep>({
  atMs: instant,
  askedPx: maybe(open(positive)),
  gotPx: open(positive),
  x: open(number),
  y: open(number),
});

const dithers = part<DitherSpread>({
  places: list(ditherPlace),
  steps: list(step),
  scatterPx: open(point),
  nearestPx: open(z.array(positive)),
  repeats: open(z.array(z.object({ first: count, second: count, apartPx: positive }))),
  oneWay: open(
    z.object({
      netPx: number,
      pathPx: number,
      trendPx: number,
      aroundPx: number,
      trendDeg: number,
      nextStepCosine: number,
      isWalking: flag,
    }),
  ),
  settling: open(
    z
      .object({
        dithers: count,
        firstAwayPx: positive,
        othersAwayPx: positive,
        fwhmRatio: positive.nullable(),
        elongationRatio: positive.nullable(),
      })
      .nullable(),
  ),
});

const reason = z.object({ why: z.enum(UNREGISTERED_REASONS), frames: count });

const pointing = part<TrainPointing>({
  train: open(text),
  target: open(text),
  size: open(size),
  scaleArcsec: maybe(open(positive)),
  reference: coarse(text, (id, how) => how.frame(id)),
  stars: open(z.array(z.object({ x: number, y: number, light: number }))),
  // Where a mount assumes it is pointing may reveal how it was aligned, and where.
  targetOffArcsec: hidden(positive.nullable(), null),
  registered: open(count),
  elsewhere: open(count),
  unregistered: open(z.array(reason)),
  drift: maybe(drift),
  rotation: maybe(rotation),
  dithers: maybe(dithers),
  dithersBy: open(z.enum(['log', 'stars'])),
  turns: list(part<CameraTurnSeen>({ atMs: instant, byDeg: open(number) })),
});

const shares = z.object({ a: number, b: number });
const geometry = part<PairGeometry>({
  similarity: open(z.object({ x: number, y: number, rotation: number, scale: positive, mirrored: flag })),
  scaleRatio: open(positive),
  rotationDeg: open(number),
  mirrored: open(flag),
  offsetArcsec: open(positive),
  offsetPx: open(point),
  overlapPercent: open(shares),
  overlapPolygon: open(z.object({ a: z.array(point), b: z.array(point) })),
  fieldOfB: open(z.array(point)),
  turn: open(z.object({ byDeg: number, overlapPercent: shares })),
  centred: open(z.object({ overlapPercent: shares })),
});

const coursePoint = part<Flexure['course'][number]>({
  midMs: instant,
  flipped: open(flag),
  x: open(number),
  y: open(number),
});
const flexure = part<Flexure>({
  overall: rate,
  sides: list(stretch),
  hours: list(stretch),
  trailPx: open(positive),
  subSeconds: open(positive),
  longestSubSeconds: maybe(open(positive)),
  longestSubWorstHourSeconds: maybe(open(positive)),
  isMeasured: open(flag),
  course: list(coursePoint),
});

const pair = part<PairPointing>({
  target: open(text),
  trains: open(z.tuple([text, text])),
  scaleRatio: open(number),
  rotation: open(number),
  offsetArcsec: open(number),
  overlap: open(z.record(z.string(), number)),
  flexureArcsecPerHour: maybe(open(number)),
  matched: open(count),
  geometry,
  flexure: maybe(flexure),
});

/** A list that earlier records lack, or have without its basis. */
function emptyIfOlder<T>(field: Field<readonly T[]>): Field<readonly T[]> {
  return { ...field, schema: field.schema.default([]) };
}

export const pointings = emptyIfOlder(list(pointing));
export const pairs = list(pair);
