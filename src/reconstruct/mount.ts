/**
 * The mount lane: slews, centring, flips, dithers and the settling after them. One mount carries every train, so what
 * two logs report is counted once here.
 */
import {
  append,
  groupBy,
  overlapMs,
  durationMs,
  interval,
  partitionPoint,
  type Activity,
  type EventOf,
  type LogEvent,
  type Warning,
} from '../model/index.js';
import { withImpliedSettling } from './implied-settling.js';
import { pairSpans, type EventSpan, type PairingRule } from './spans.js';

type MountKind = 'slew' | 'centre' | 'flip' | 'dither-move' | 'settling';
type MountSpan = 'slew' | 'centre' | 'flip' | 'dither' | 'settling';

interface MountRule extends PairingRule<`${MountSpan}-begin`, `${MountSpan}-end`> {
  readonly kind: MountKind;
}

const RULES: readonly MountRule[] = [
  { kind: 'slew', begin: 'slew-begin', end: 'slew-end', overBy: ['centre-begin', 'exposure-begin', 'guiding-begin'] },
  { kind: 'centre', begin: 'centre-begin', end: 'centre-end', overBy: ['guiding-begin', 'dither-begin'] },
  { kind: 'flip', begin: 'flip-begin', end: 'flip-end', overBy: ['guiding-begin', 'dither-begin'] },
  {
    kind: 'dither-move',
    begin: 'dither-begin',
    end: 'dither-end',
    before: 'settling-begin',
    overBy: ['settling-end', 'exposure-begin'],
  },
  {
    kind: 'settling',
    begin: 'settling-begin',
    end: 'settling-end',
    overBy: ['dither-begin', 'slew-begin', 'guiding-end'],
  },
];

/** A settling that begins this soon after a dither's move belongs to it, ms. Common practice, no source. */
const SETTLE_FOLLOWS_MS = 10_000;

/**
 * Reads the mount's activities from all logs.
 *
 * @param events every log's, on one clock, sorted
 * @param pilot the train whose computer steers: its log wins if two report the same activity
 */
export function mountActivities(
  events: readonly LogEvent[],
  pilot: string | undefined,
  untilOf: (train: string | undefined) => number,
): { activities: Activity[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  const activities: Activity[] = [];
  const pilotExposures = events.flatMap((e) =>
    e.event === 'exposure-begin' && e.train !== undefined && e.train === pilot ? [e.atMs] : [],
  );
  for (const [train, logged] of groupBy(events, (e) => e.train)) {
    const own = withImpliedSettling(logged);
    // A log of no train has no exposures of its own; the pilot opens no shutter on a moving mount.
    const overMs = train === undefined ? pilotExposures : [];
    for (const rule of RULES) {
      const paired = pairSpans(own, rule, untilOf(train), rule.overBy.includes('exposure-begin') ? overMs : []);
      append(warnings, paired.warnings);
      for (const s of paired.spans) activities.push(toActivity(rule.kind, s, train ?? pilot));
    }
  }
  const once = withoutLateTellings(withoutRepeats(activities, pilot), pilot);
  return { activities: classifySettling(once), warnings };
}

function toActivity(
  kind: MountKind,
  { span, begin, end, next }: EventSpan<`${MountSpan}-begin`, `${MountSpan}-end`>,
  causedBy: string | undefined,
): Activity {
  const outline = {
    span,
    causedBy,
    why: begin.why ?? end?.why,
    certainty: end || next ? ('measured' as const) : ('inferred' as const),
    sources: [begin, end, next].flatMap((event) => (event ? [event.source] : [])),
  };
  if (kind !== 'dither-move') return { ...outline, kind, facts: { ok: end?.ok } };
  return { ...outline, kind, facts: { ok: end?.ok, pixels: pixelsOf(begin) ?? (end && pixelsOf(end)) } };
}

function pixelsOf(event: EventOf<`${MountSpan}-begin` | `${MountSpan}-end`>): number | undefined {
  return 'pixels' in event ? event.pixels : undefined;
}

/** Drops the duplicate of an activity that two logs report; the pilot's stays. */
function withoutRepeats(activities: readonly Activity[], pilot: string | undefined): Activity[] {
  const kept: Activity[] = [];
  for (const ofKind of groupBy(activities, (a) => a.kind).values()) {
    const pilots = ofKind.filter((a) => a.causedBy === pilot).sort(byStart);
    const others = ofKind.filter((a) => a.causedBy !== pilot).sort(byStart);
    const chosen = [...pilots];
    for (const other of others) if (!chosen.some((a) => isSameActivity(a, other))) chosen.push(other);
    append(kept, chosen);
  }
  return kept.sort(byStart);
}

/** Tolerance for clock errors and lines written late, ms. */
const APART_MS = 5000;

/**
 * Drops what another log reports to have begun while, in the pilot's, the mount moves for a dither and settles: the
 * same activity, seen late by a program that polls every few seconds. Otherwise it would overlap shutters that opened
 * after it.
 */
function withoutLateTellings(activities: readonly Activity[], pilot: string | undefined): Activity[] {
  const moves = activities.filter((a) => a.causedBy === pilot && (a.kind === 'dither-move' || a.kind === 'settling'));
  const isLate = (a: Activity, of: readonly Activity[]): boolean => {
    const last = of[partitionPoint(of, (one) => one.span.startMs > a.span.startMs + APART_MS) - 1];
    return last !== undefined && a.span.startMs <= last.span.endMs;
  };
  const settlings = moves.filter((a) => a.kind === 'settling');
  return activities.filter((a) => {
    if (a.causedBy === pilot) return true;
    if (a.kind === 'dither-move') return !isLate(a, moves);
    return a.kind !== 'settling' || !isLate(a, settlings);
  });
}

/** Whether two logs report the same activity, of a kind. */
export function isSameActivity(a: Activity, b: Activity): boolean {
  const shorter = Math.min(durationMs(a.span), durationMs(b.span));
  return overlapMs(a.span, b.span) >= 0.5 * shorter && Math.abs(a.span.startMs - b.span.startMs) <= APART_MS;
}

/**
 * Distinguishes the settling of a dither from that of a guiding start or a recovered star: the former follows a
 * dither's move, the latter belongs to guiding.
 */
function classifySettling(activities: readonly Activity[]): Activity[] {
  const moves = activities.filter((a) => a.kind === 'dither-move');
  return activities.map((a) => {
    if (a.kind !== 'settling') return a;
    const move = moves.findLast((m) => m.span.startMs <= a.span.startMs);
    if (move && a.span.startMs - move.span.endMs <= SETTLE_FOLLOWS_MS) {
      // The log's clock may tick between the two lines; the mount does not rest there.
      const startMs = Math.max(a.span.startMs, move.span.endMs);
      return { ...a, causedBy: move.causedBy, span: interval(Math.min(startMs, a.span.endMs), a.span.endMs) };
    }
    return { ...a, kind: 'guiding-start' as const };
  });
}

function byStart(a: Activity, b: Activity): number {
  return a.span.startMs - b.span.startMs;
}
