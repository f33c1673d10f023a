/** Events and activities, field by field. */
import { z } from 'zod';
import type {
  Activity,
  ActivityKind,
  ActivityOutline,
  ClockDrift,
  ClockJump,
  ClockNote,
  CoolerReading,
  FactOf,
  FieldValue,
  Frame,
  Target,
  Timeline,
} from '../../model/index.js';
import { ACTIVITY_KINDS, activityRow, MOST_FRAMES, MOST_GOALS, MOST_TRAINS } from '../../model/index.js';
import { certainty, file, flag, instant, number, positive, source, span, text, warning } from './common.js';
import { FRAME_KINDS, header } from './header.js';
import { byKind, coarse, hidden, list, open, optional, part, type Field } from './field.js';

const degrees = z.number().min(-360).max(360);
const frameKind = z.enum(FRAME_KINDS);

const maybeOpen = <T extends string | number>(schema: z.ZodType<T>): Field<T | undefined> => optional(open(schema));
const maybeHidden = <T>(schema: z.ZodType<T>): Field<T | undefined> =>
  hidden<T | undefined>(schema.optional(), undefined);

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
  // Free text from a log.
  abortWhy: maybeHidden(text),
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
  step: optional(part<NonNullable<ClockNote['step']>>({ atMs: instant, byMs: open(number), by: open(text) })),
  drift: optional(part<ClockDrift>({ perHourMs: open(number), aboutMs: instant })),
});

export const timeline = part<Timeline>({
  frames: list(frame, MOST_FRAMES),
  // Taken on other dates, at times unrelated to this night.
  library: list(frame, MOST_FRAMES),
  activities: list(activity),
  targets: list(target, MOST_GOALS),
  coolers: list(cooler),
  clocks: list(clock, 10 * MOST_TRAINS),
  headersOnly: open(flag),
  warnings: list(warning),
});
