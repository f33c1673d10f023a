import { isOfSeconds, lengthMs } from '../lengths.js';
import { groupBy } from '../../../../model/index.js';
import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { sideOfTitle } from '../lexicon/sides.js';
import { busierSide, SLACK_MS } from './busier-side.js';
import type { Occurrence } from './occurrences.js';
import { lengthsInColumns, type Stated } from './lengths-in-columns.js';
import { isTwin } from './twins.js';

export type { Stated } from './lengths-in-columns.js';

const MIN_COMPARED = 3;

interface Span {
  readonly kind: Kind;
  readonly atMs: number;
  readonly lastsMs: number;
}

interface Overlaps {
  compared: number;
  /** Fraction of lines whose seconds, counted forward, overlap the next span. */
  forward: number;
  /** Fraction of lines whose seconds, counted back, overlap the previous span. */
  back: number;
  /** Fraction of lines with another line exactly that many seconds earlier. */
  answered: number;
}

/**
 * Infers from the timeline whether stated seconds are elapsed or planned: one mount and one camera act sequentially, so
 * the reading under which spans overlap is wrong, and so is the one under which more happens during the spans. Numbers
 * with the same name mean the same on all kinds of line.
 */
export function statedDurations(kinds: readonly Kind[], timeline: readonly Occurrence[]): Map<Kind, Stated> {
  const slots = new Map(kinds.flatMap(secondsSlot));
  const stated = new Map([...byNames(kinds, timeline), ...filedAtOnce(slots, timeline)]);
  const spans = spansOf(slots, timeline);
  const times = new Times(timeline.map(({ atMs }) => atMs));
  const overlaps = new Map<Kind, Overlaps>();
  const of = (kind: Kind): Overlaps => {
    const known = overlaps.get(kind) ?? { compared: 0, forward: 0, back: 0, answered: 0 };
    overlaps.set(kind, known);
    return known;
  };
  const areTwins = twinTest();
  spans.forEach((span, i) => {
    const own = of(span.kind);
    const before = neighbour(spans, i, -1, areTwins);
    const after = neighbour(spans, i, 1, areTwins);
    own.compared++;
    if (times.hasNear(span.atMs - span.lastsMs)) own.answered++;
    if (after !== undefined && span.atMs + span.lastsMs > after.atMs + SLACK_MS) own.forward++;
    if (before !== undefined && span.atMs - span.lastsMs < before.atMs - SLACK_MS) own.back++;
  });
  for (const [kind, { compared, forward, back, answered }] of overlaps) {
    if (compared < MIN_COMPARED) continue;
    // `60 s at most` overlaps the next span as well, yet nothing began 60 s earlier.
    const isLimit = slots.get(kind)?.values.length === 1 && answered < 0.5 * compared;
    if (forward >= 0.3 * compared && back <= 0.1 * compared && !isLimit) stated.set(kind, 'past');
    else if (back >= 0.3 * compared && forward <= 0.1 * compared) stated.set(kind, 'planned');
  }
  return new Map([...stated, ...bracketed(slots, stated, overlaps), ...lengthsInColumns(slots, stated)]);
}

/** The span before or after one; a parallel one of another train with the same words does not count. */
function neighbour(
  spans: readonly Span[],
  from: number,
  step: 1 | -1,
  areTwins: (a: Kind, b: Kind) => boolean,
): Span | undefined {
  const own = spans[from]?.kind;
  let i = from + step;
  for (let other = spans[i]; own !== undefined && other !== undefined && areTwins(own, other.kind); other = spans[i])
    i += step;
  return spans[i];
}

/** Whether two kinds report the same for two trains; cached for each pair. */
function twinTest(): (a: Kind, b: Kind) => boolean {
  const known = new Map<Kind, Map<Kind, boolean>>();
  return (a, b) => {
    if (a === b) return false;
    const own = known.get(a) ?? new Map<Kind, boolean>();
    known.set(a, own);
    const found = own.get(b) ?? isTwin(a, b);
    own.set(b, found);
    return found;
  };
}

/** Seconds in brackets at the end of a line. */
const BRACKETED = /[([{]# ?\p{L}+\.?[)\]}]$/u;

/**
 * A trailing bracket, `filter in place (5.1 s)`, means the same on all lines of a log, including those whose spans are
 * too short to decide.
 */
function bracketed(
  slots: ReadonlyMap<Kind, Slot>,
  stated: ReadonlyMap<Kind, Stated>,
  overlaps: ReadonlyMap<Kind, Overlaps>,
): [Kind, Stated][] {
  const byEnd = groupBy(
    [...slots].filter(([{ wording, slots: all }, slot]) => all.at(-1) === slot && BRACKETED.test(wording)),
    ([{ wording }]) => BRACKETED.exec(wording)?.[0] ?? '',
  );
  return [...byEnd.values()].flatMap((own): [Kind, Stated][] => {
    const sum = (side: 'forward' | 'back'): number =>
      own.reduce((all, [kind]) => all + (overlaps.get(kind)?.[side] ?? 0), 0);
    const directions = own.flatMap(([kind]) => stated.get(kind) ?? []);
    const isPast =
      (directions.length >= MIN_KINDS && directions.every((one) => one === 'past')) ||
      (sum('forward') >= MIN_SPANS && sum('back') <= 0.1 * sum('forward'));
    return own.length >= MIN_KINDS && isPast ? own.map(([kind]) => [kind, 'past']) : [];
  });
}

/** How one-sided the activity around spans must be to interpret their name. */
const SIDED = 0.1;
const MUCH_MORE = 5;
/** Minimum number of spans, and of kinds, that share a name. */
const MIN_SPANS = 8;
const MIN_KINDS = 2;

/** Numbers of seconds grouped by name: whether more lines precede or follow within that duration. */
function byNames(kinds: readonly Kind[], timeline: readonly Occurrence[]): [Kind, Stated][] {
  const timesMs = timeline.map(({ atMs }) => atMs);
  const named = new Map<string, { kinds: Set<Kind>; spans: number; after: number; before: number }>();
  for (const kind of kinds)
    for (const slot of kind.slots) {
      const unit = slot.type === 'number' ? tookUnit(slot) : null;
      const name = slot.path ?? slot.before[0];
      if (unit === null || name === undefined || slot.values.length < 2) continue;
      const own = named.get(name) ?? { kinds: new Set(), spans: 0, after: 0, before: 0 };
      named.set(name, own);
      own.kinds.add(kind);
      for (const [i, atMs] of kind.atMs.entries()) {
        const lastsMs = numberIn(slot.perLine[i]) * unit * 1000;
        if (Number.isNaN(atMs) || !(lastsMs > 2 * SLACK_MS)) continue;
        const side = busierSide(timesMs, atMs, lastsMs);
        own.spans++;
        if (side === 'after') own.after++;
        else if (side === 'before') own.before++;
      }
    }
  return [...named.values()].flatMap((own): [Kind, Stated][] => {
    if (own.spans < MIN_SPANS || own.kinds.size < MIN_KINDS) return [];
    const isPast = own.after >= SIDED * own.spans && own.after >= MUCH_MORE * own.before;
    return isPast ? [...own.kinds].map((kind) => [kind, 'past']) : [];
  });
}

/** A frame's file is logged within this of its end, ms; fewer lines, or a smaller fraction, may be chance. */
const FILED_MS = 12_000;
const MIN_FILED = 8;
const ALWAYS_FILED = 0.95;

/**
 * Kinds whose lines are immediately followed by a file name although they state a much longer duration: the exposure is
 * over. Files saved while the next frame is open follow its beginning only if frames follow each other without a pause.
 */
function filedAtOnce(slots: ReadonlyMap<Kind, Slot>, timeline: readonly Occurrence[]): [Kind, Stated][] {
  const filesMs = timeline.flatMap(({ kind, atMs }) => (kind.slots.some(({ type }) => type === 'file') ? [atMs] : []));
  return [...slots].flatMap(([kind, slot]): [Kind, Stated][] => {
    const unitMs = (tookUnit(slot) ?? 1) * 1000;
    const isLong = slot.values.every((value) => numberIn(value) * unitMs > 2 * FILED_MS);
    if (!isLong || kind.count < MIN_FILED || kind.slots.some(({ type }) => type === 'file')) return [];
    const filed = kind.atMs.filter((atMs) => filesMs.some((ms) => ms > atMs && ms - atMs <= FILED_MS));
    return filed.length >= ALWAYS_FILED * kind.atMs.length ? [[kind, 'past']] : [];
  });
}

/** The times of all lines, in units of the tolerance. */
class Times {
  private readonly slots: ReadonlySet<number>;

  constructor(timesMs: readonly number[]) {
    this.slots = new Set(timesMs.map((atMs) => Math.round(atMs / SLACK_MS)));
  }

  hasNear(atMs: number): boolean {
    const slot = Math.round(atMs / SLACK_MS);
    return this.slots.has(slot) || this.slots.has(slot - 1) || this.slots.has(slot + 1);
  }
}

/** The fraction of lines on which two lengths are the same, that of a column and the one asked for. */
const SAME = 0.9;

/** The slot of a kind that holds seconds; empty if there are none, or several that differ. */
function secondsSlot(kind: Kind): (readonly [Kind, Slot])[] {
  const [slot, ...others] = kind.slots.filter(isOfSeconds);
  if (slot === undefined) return [];
  const isSame = (other: Slot): boolean => {
    const same = slot.perLine.filter((_, i) => Math.abs(lengthMs(slot, i) - lengthMs(other, i)) <= SLACK_MS);
    return same.length >= SAME * slot.perLine.length;
  };
  // A column titled as the beginning says so by itself.
  const isBegin = sideOfTitle([kind.timeColumn ?? '']) === 'begin';
  return others.length === 0 || (!isBegin && others.every(isSame)) ? [[kind, slot]] : [];
}

function spansOf(slots: ReadonlyMap<Kind, Slot>, timeline: readonly Occurrence[]): Span[] {
  const seen = new Map<Kind, number>();
  return timeline.flatMap(({ kind, atMs }): Span[] => {
    const slot = slots.get(kind);
    if (slot === undefined) return [];
    const index = seen.get(kind) ?? 0;
    seen.set(kind, index + 1);
    const lastsMs = lengthMs(slot, index);
    return Number.isNaN(lastsMs) ? [] : [{ kind, atMs, lastsMs }];
  });
}
