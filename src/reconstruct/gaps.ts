/**
 * Inferences about the gaps between exposures without a log: from headers only, and marked as such.
 *
 * Each train's gap begins with its readout (the typical shortest gap); the rest is explained by what changed from one
 * header to the next (target, filter, focus), or by all trains resting together (a dither).
 */
import {
  durationMs,
  indexSpans,
  interval,
  intersect,
  median,
  partitionPoint,
  quantile,
  subtract,
  type Activity,
  type ActivityKind,
  type Frame,
  type Interval,
  type Source,
} from '../model/index.js';
import { isPointing, lastOfPointing, pointingChange } from './gap-pointing.js';
import { isOfMissingFrames } from './missing-frames.js';

/** Longer gaps are not explained by a change of filter, focus or dither, ms. Common practice, no source. */
const LONGEST_FILTER_CHANGE_MS = 60_000;
const LONGEST_DITHER_MS = 180_000;
const LONGEST_FOCUS_MS = 900_000;
/** No camera reads out longer than this, ms; a shortest gap above it is no evidence of the readout. */
const LONGEST_READOUT_MS = 30_000;
/** A rest shorter than this after readout is the program's own overhead and counts as readout, ms. */
export const OVERHEAD_MS = 2500;

/** The text for such an activity. */
const FROM_GAPS = 'concluded from the gap between two frames';

/** The time between two consecutive frames of one train. */
interface Gap {
  readonly train: string;
  readonly span: Interval;
  readonly before: Frame;
  readonly after: Frame;
}

/** The rest of a gap after its readout, and what changed in it. */
interface Rest extends Gap {
  readonly change: ActivityKind | null;
}

/**
 * Infers activities from the gaps of the trains whose log does not report them.
 *
 * @param trains per train: its frames sorted by start, and whether any log reports what it did between them
 * @param mountLogged whether any log reports what the mount did
 */
export function inferFromGaps(
  trains: readonly { readonly id: string; readonly frames: readonly Frame[]; readonly logged: boolean }[],
  mountLogged: boolean,
): Activity[] {
  const readouts: Activity[] = [];
  const rests: Rest[] = [];
  const busy = new Map<string, Interval[]>();
  for (const train of trains) {
    const gaps = gapsOf(train.id, train.frames);
    const readoutMs = typicalReadoutMs(gaps);
    busy.set(
      train.id,
      train.frames.map((f) => interval(f.exposure.startMs, f.exposure.endMs + readoutMs)),
    );
    for (const gap of gaps) {
      const readout = readoutOf(gap, readoutMs);
      if (gap.before.savedMs === undefined && readout) readouts.push(inferred('readout', readout, gap));
      const rest = interval(Math.min(readout?.endMs ?? gap.span.startMs, gap.span.endMs), gap.span.endMs);
      if (train.logged || durationMs(rest) <= OVERHEAD_MS) continue;
      const change = (mountLogged ? null : pointingChange(gap, durationMs(rest))) ?? ownChange(gap, rest);
      rests.push({ ...gap, span: rest, change });
    }
  }
  const dithers = mountLogged ? [] : commonRests(rests, busy);
  const lights = trains.flatMap(({ frames }) => frames.filter(isLight));
  return [...readouts, ...dithers, ...changes(rests, dithers, lights)];
}

/** Whether an activity was inferred from a gap; another frame in the gap may contradict it. */
export function isFromGaps({ certainty, why }: Activity): boolean {
  return certainty === 'inferred' && why === FROM_GAPS;
}

/**
 * What changed in each rest, over the part not taken by a dither. All trains share one mount: it turned to another
 * field while none of them exposed, if they left any time for it.
 */
function changes(rests: readonly Rest[], dithers: readonly Activity[], lights: readonly Frame[]): Activity[] {
  const moved = indexSpans(dithers, (d) => d.span);
  return rests.flatMap((rest) => {
    if (rest.change === null) return [];
    // After a dither the change comes last: trains without changes are exposing again by then.
    const left = subtract(
      [rest.span],
      moved.touching(rest.span).map((d) => d.span),
    ).at(-1);
    if (!left) return [];
    const others = isPointing(rest.change) ? lights.filter(({ train }) => train !== rest.train) : [];
    const free = subtract(
      [left],
      others.map((f) => f.exposure),
    ).sort((a, b) => durationMs(b) - durationMs(a));
    const span = free[0] ?? left;
    return [inferred(rest.change, isPointing(rest.change) ? lastOfPointing(span, rest) : span, rest)];
  });
}

function isLight({ kind }: Frame): boolean {
  return kind === 'light';
}

function gapsOf(train: string, frames: readonly Frame[]): Gap[] {
  const gaps: Gap[] = [];
  for (let i = 1; i < frames.length; i++) {
    const before = frames[i - 1]!;
    const after = frames[i]!;
    if (after.exposure.startMs > before.exposure.endMs) {
      gaps.push({ train, before, after, span: interval(before.exposure.endMs, after.exposure.startMs) });
    }
  }
  return gaps;
}

/** The typical shortest gap: the median of the lower half of the short ones, 0 when there are none. */
function typicalReadoutMs(gaps: readonly Gap[]): number {
  const short = gaps.map((g) => durationMs(g.span)).filter((ms) => ms <= LONGEST_READOUT_MS);
  return short.length === 0 ? 0 : Math.round(quantile(short, 0.25));
}

function readoutOf(gap: Gap, readoutMs: number): Interval | null {
  const lengthMs = durationMs(gap.span);
  if (readoutMs === 0) return null;
  const ms = lengthMs <= readoutMs + OVERHEAD_MS ? lengthMs : readoutMs;
  return interval(gap.span.startMs, gap.span.startMs + ms);
}

function ownChange(gap: Gap, rest: Interval): ActivityKind | null {
  const lengthMs = durationMs(rest);
  const moved =
    gap.before.header?.focusPosition !== undefined &&
    gap.after.header?.focusPosition !== undefined &&
    gap.before.header.focusPosition !== gap.after.header.focusPosition;
  const refiltered =
    gap.before.filter !== undefined && gap.after.filter !== undefined && gap.before.filter !== gap.after.filter;
  if (refiltered && lengthMs <= LONGEST_FILTER_CHANGE_MS) return 'filter';
  if (moved && lengthMs <= LONGEST_FOCUS_MS) return 'focus';
  return null;
}

/**
 * Rests shared by all trains are dithers: nobody exposes, the mount moves once the last train is ready, and all resume.
 * A train's rest before the move is its wait. A single train's rests count when they recur. Nobody dithers between
 * flats or darks.
 */
function commonRests(rests: readonly Rest[], busy: ReadonlyMap<string, readonly Interval[]>): Activity[] {
  const active = [...busy].filter(([, spans]) => spans.length > 1);
  const [first, ...others] = active;
  if (!first) return [];
  const between = rests.filter(({ before, after }) => isLight(before) && isLight(after));
  if (others.length === 0) return recurringRests(between.filter((r) => r.change === null));
  const changed = indexSpans(
    rests.filter((r) => r.change !== null),
    (r) => r.span,
  );
  const found = between
    .filter((r) => r.train === first[0])
    .flatMap((rest) => {
      const span = others.reduce<Interval | null>((common, [, spans]) => {
        const idle = common && idleAround(spans, common);
        return idle && intersect(idle, rest.span);
      }, rest.span);
      if (!span || durationMs(span) <= OVERHEAD_MS || durationMs(span) > LONGEST_DITHER_MS) return [];
      return [{ rest, span, changes: changed.touching(span).map((r) => r.change) }];
    });
  // If something else changed too, only a rest of the usual length is a dither followed by a change.
  const usualMs = median(found.filter((f) => f.changes.length === 0).map((f) => durationMs(f.span)));
  return found
    .filter((f) => f.changes.length === 0 || (!f.changes.some(isPointing) && durationMs(f.span) <= 2 * usualMs))
    .map(({ rest, span }) => ({ ...inferred('dither-move', span, rest), train: undefined }));
}

/** The first interval within the span in which a train neither exposes nor reads out, or `null` when there is none. */
function idleAround(busy: readonly Interval[], span: Interval): Interval | null {
  let startMs = span.startMs;
  for (let i = partitionPoint(busy, (b) => b.endMs > span.startMs); i < busy.length; i++) {
    const { startMs: from, endMs: to } = busy[i]!;
    if (from >= span.endMs) break;
    if (from > startMs) return interval(startMs, from);
    startMs = Math.max(startMs, to);
    if (startMs >= span.endMs) return null;
  }
  return interval(startMs, span.endMs);
}

/** With a single train, a rest is a dither if rests of similar length recur. */
function recurringRests(rests: readonly Gap[]): Activity[] {
  const short = rests.filter((r) => durationMs(r.span) <= LONGEST_DITHER_MS && !isOfMissingFrames(r));
  if (short.length < 3) return [];
  const typicalMs = median(short.map((r) => durationMs(r.span)));
  return short
    .filter((r) => {
      const lengthMs = durationMs(r.span);
      return lengthMs >= 0.4 * typicalMs && lengthMs <= 2.5 * typicalMs;
    })
    .map((r) => ({ ...inferred('dither-move', r.span, r), train: undefined }));
}

function inferred(kind: ActivityKind, span: Interval, gap: Gap): Activity {
  const sources: Source[] = [...gap.before.sources.slice(0, 1), ...gap.after.sources.slice(0, 1)];
  return {
    kind,
    span,
    train: gap.train,
    certainty: 'inferred',
    sources,
    why: FROM_GAPS,
  };
}
