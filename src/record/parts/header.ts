/** Header facts, field by field, by the kind of their frame. */
import { z } from 'zod';
import { isObject, type FrameKind, type HeaderFrame } from '../../model/index.js';
import { count, file, flag, number, positive, span, text } from './common.js';
import { byKind, hidden, open, optional, part, type Field } from './field.js';

export const FRAME_KINDS = ['light', 'dark', 'flat', 'bias', 'dark-flat', 'other'] as const satisfies FrameKind[];

const degrees = z.number().min(-360).max(360);
const maybeOpen = <T extends string | number>(schema: z.ZodType<T>): Field<T | undefined> => optional(open(schema));
const maybeHidden = <T>(schema: z.ZodType<T>): Field<T | undefined> =>
  hidden<T | undefined>(schema.optional(), undefined);

/** Header facts for any frame. Equipment names and locations are not shared. */
const common = {
  file,
  sizeBytes: hidden(count, 0),
  isCutOff: optional(open(flag)),
  headerHash: hidden(text, ''),
  cards: maybeHidden(z.record(z.string(), z.union([z.string(), z.number(), z.boolean()]))),
  exposure: optional(span),
  exposureSeconds: maybeOpen(positive),
  unlikelySeconds: maybeHidden(positive),
  isClockVouched: maybeHidden(flag),
  localOffsetMinutes: maybeHidden(number),
  telescope: maybeHidden(text),
  instrument: maybeHidden(text),
  gain: maybeOpen(number),
  offset: maybeOpen(number),
  binning: optional(open(z.object({ x: positive, y: positive }))),
  sensorTemperatureC: maybeOpen(number),
  setTemperatureC: maybeOpen(number),
  focusPosition: maybeOpen(number),
  focusTemperatureC: maybeOpen(number),
  backgroundAdu: maybeHidden(number),
  electronsPerAdu: maybeOpen(number),
  readNoiseElectrons: maybeOpen(number),
  pedestalAdu: maybeOpen(number),
  saturationAdu: maybeOpen(number),
  bayerPattern: maybeOpen(text),
  focalLengthMm: maybeOpen(number),
  apertureMm: maybeOpen(number),
  pixelSizeUm: maybeOpen(number),
  width: maybeOpen(number),
  height: maybeOpen(number),
  site: maybeHidden(z.object({ latitudeDeg: number, longitudeDeg: number, elevationM: number.optional() })),
  pierSide: maybeHidden(text),
  rotationDeg: maybeHidden(number),
  software: maybeHidden(text),
};

/** A light's sky facts: pointing and everything lit by the sky are not shared. */
const ofSky = {
  target: maybeOpen(text),
  pointing: maybeHidden(z.object({ raDeg: degrees, decDeg: degrees })),
  starSize: optional(open(z.object({ pixels: number, measure: z.enum(['fwhm', 'half-flux', 'unknown']) }))),
  starCount: maybeHidden(number),
  starFluxAdu: maybeHidden(number),
};

/** Not written for frames of this kind; dropped if written by an earlier program. */
const dropped = z
  .unknown()
  .transform(() => undefined)
  .optional();
const absent = hidden<undefined>(dropped, undefined);
const noSky = { target: absent, pointing: absent, starSize: absent, starCount: absent, starFluxAdu: absent };

type Of<K extends FrameKind, H = Extract<HeaderFrame, { readonly kind: K }>> = Pick<H, keyof H>;
const filter = maybeOpen(text);
const light = part<Of<'light'>>({ ...common, ...ofSky, filter, kind: open(z.literal('light')) });
const flat = part<Of<'flat'>>({ ...common, ...noSky, filter, kind: open(z.literal('flat')) });

function ofKind(kind: FrameKind): Field<HeaderFrame> {
  if (kind === 'light') return light as Field<HeaderFrame>;
  if (kind === 'flat') return flat;
  return part<Of<typeof kind>>({ ...common, ...noSky, filter: absent, kind: open(z.literal(kind)) });
}

const present = byKind<FrameKind, HeaderFrame>(FRAME_KINDS, ofKind);

/** One header. */
export const header: Field<HeaderFrame> = { ...present, schema: z.preprocess(presentHeader, present.schema) };

/** Until November 2026 positions and star sizes were in separate fields, and the measure of a size could be missing. */
function presentHeader(value: unknown): unknown {
  if (!isObject(value)) return value;
  const { raDeg, decDeg, starSize, starMeasure, siteLatitudeDeg, siteLongitudeDeg, siteElevationM, ...others } = value;
  const isPlaced = raDeg !== undefined && decDeg !== undefined;
  const hasSite = siteLatitudeDeg !== undefined && siteLongitudeDeg !== undefined;
  const site = { latitudeDeg: siteLatitudeDeg, longitudeDeg: siteLongitudeDeg, elevationM: siteElevationM };
  const size = typeof starSize === 'number' ? { pixels: starSize, measure: starMeasure ?? 'unknown' } : starSize;
  return {
    ...others,
    ...(isPlaced ? { pointing: { raDeg, decDeg } } : {}),
    ...(hasSite ? { site } : {}),
    ...(size === undefined ? {} : { starSize: size }),
  };
}
