/** What happened when, field by field. */
import { z } from 'zod';
import type {
  Activity,
  ActivityKind,
  ActivityOutline,
  ClockJump,
  ClockNote,
  CoolerReading,
  FactOf,
  FieldValue,
  Frame,
  HeaderFrame,
  Target,
  Timeline,
} from '../../model/index.js';
import { ACTIVITY_KINDS, activityRow } from '../../model/index.js';
import { certainty, count, file, flag, instant, number, positive, source, span, text, warning } from './common.js';
import { byKind, coarse, hidden, list, open, optional, part, type Field } from './field.js';

const degrees = z.number().min(-360).max(360);
const frameKind = z.enum(['light', 'dark', 'flat', 'bias', 'dark-flat', 'other']);

const maybeOpen = <T extends string | number>(schema: z.ZodType<T>): Field<T | undefined> => optional(open(schema));
const maybeHidden = <T>(schema: z.ZodType<T>): Field<T | undefined> =>
  hidden<T | undefined>(schema.optional(), undefined);

/** What a header says. Equipment by name, place, pointing and whatever the sky lights up stay at home. */
const header = part<Pick<HeaderFrame, keyof HeaderFrame>>({
  file,
  sizeBytes: hidden(count, 0),
  headerHash: hidden(text, ''),
  cards: maybeHidden(z.record(z.string(), z.union([z.string(), z.number(), z.boolean()]))),
  kind: open(frameKind),
  exposure: optional(span),
  exposureSeconds: maybeOpen(positive),
  isClockVouched: maybeHidden(flag),
  localOffsetMinutes: maybeHidden(number),
  target: maybeOpen(text),
  filter: maybeOpen(text),
  telescope: maybeHidden(text),
  instrument: maybeHidden(text),
  raDeg: maybeHidden(degrees),
  decDeg: maybeHidden(degrees),
  gain: maybeOpen(number),
  offset: maybeOpen(number),
  binning: optional(open(z.object({ x: positive, y: positive }))),
  sensorTemperatureC: maybeOpen(number),
  setTemperatureC: maybeOpen(number),
  focusPosition: maybeOpen(number),
  focusTemperatureC: maybeOpen(number),
  starSize: maybeOpen(number),
  starMeasure: maybeOpen(z.enum(['fwhm', 'half-flux'])),
  starCount: maybeHidden(number),
  starFluxAdu: maybeHidden(number),
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
  siteLatitudeDeg: maybeHidden(number),
  siteLongitudeDeg: maybeHidden(number),
  siteElevationM: maybeHidden(number),
  pierSide: maybeHidden(text),
  rotationDeg: maybeHidden(number),
  software: maybeHidden(text),
});

const frame = part<Frame>({
  id: coarse(text, (id, how) => how.frame(id)),
  train: open(text),
  kind: open(frameKind),
  exposure: span,
  askedMs: maybeOpen(positive),
  target: maybeOpen(text),
  filter: maybeOpen(text),
  provenance: open(z.enum(['log-and-file', 'file-only', 'log-only'])),
  file: optional(file),
  header: optional(header),
  savedMs: optional(instant),
  aborted: optional(open(flag)),
  sources: list(source),
});

/** Every fact that an activity of some kind may have. */
type Facts = { readonly [F in FactOf<ActivityKind>]?: FieldValue<F> };

const factFields: { readonly [F in keyof Facts]-?: Field<Facts[F]> } = {
  ok: optional(open(flag)),
  pixels: maybeOpen(number),
  sizeBefore: maybeOpen(number),
  sizeAfter: maybeOpen(number),
  position: maybeOpen(number),
  temperature: maybeOpen(number),
  to: maybeOpen(text),
};

/** An activity of one kind, with the facts that the vocabulary gives it. */
function ofKind(kind: ActivityKind): Field<Activity> {
  const names = new Set<string>(activityRow(kind).facts);
  const own = Object.fromEntries(Object.entries(factFields).filter(([name]) => names.has(name)));
  return part<ActivityOutline & { readonly facts?: Facts }>({
    kind: open<ActivityKind>(z.literal(kind)),
    span,
    train: maybeOpen(text),
    causedBy: maybeOpen(text),
    // Free text from a log.
    why: maybeHidden(text),
    certainty: open(certainty),
    sources: list(source),
    facts: optional(part<Facts>(own as typeof factFields)),
  });
}

const activity = byKind<ActivityKind, Activity>(ACTIVITY_KINDS, ofKind);

const target = part<Target>({
  name: open(text),
  aliases: open(z.array(text)),
  raDeg: open(degrees),
  decDeg: open(degrees),
  origin: open(z.enum(['rig-file', 'headers'])),
});

const cooler = part<CoolerReading>({
  atMs: instant,
  train: open(text),
  setpointC: maybeOpen(number),
  temperatureC: maybeOpen(number),
  source,
});

const clock = part<ClockNote>({
  train: open(text),
  source: open(z.enum(['headers', 'log'])),
  against: open(text),
  aheadMs: open(number),
  uncertaintyMs: open(number),
  corrected: open(flag),
  by: open(text),
  isKnown: open(flag),
  isAbsolute: open(flag),
  second: optional(open(z.object({ aheadMs: number, share: number }))),
  jump: optional(part<ClockJump>({ atMs: instant, byMs: open(number), isOwn: open(flag) })),
});

export const timeline = part<Timeline>({
  frames: list(frame),
  // Taken on other dates, at times that have nothing to do with this night.
  library: list(frame),
  activities: list(activity),
  targets: list(target),
  coolers: list(cooler),
  clocks: list(clock),
  headersOnly: open(flag),
  warnings: list(warning),
});
