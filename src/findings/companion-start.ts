/**
 * A companion that began while the mount was still pointing, or long after the pilot.
 */
import {
  counted,
  duration,
  durationMs,
  groupBy,
  interval,
  KEEPS_TO_NONE,
  POINTING_KINDS,
  sum,
  type ActivityKind,
  type JudgedFrame,
  type NightFacts,
  lightsOf,
} from '../model/index.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { exposedMs, exposures, keptShare, winOfTime } from './trains.js';
import { clock, firstOf, frameLinks } from './wording.js';

export const companionStart: FindingModule<{ readonly usualMinutes: number; readonly lateMinutes: number }> = {
  id: 'companion-start',
  title: 'Start of the companion',
  needs: ['two-trains', 'lights', 'times-by-the-sky'],
  // Two to three minutes after the pilot's first exposure, when centring and guiding have proved stable: common
  // practice, no source.
  defaults: { usualMinutes: 3, lateMinutes: 10 },
  find(night, { usualMinutes, lateMinutes }) {
    const pilot = night.gathered.trains.find((t) => t.role === 'pilot') ?? night.gathered.trains[0];
    if (!pilot) return [];
    return night.gathered.trains
      .filter((t) => t !== pilot)
      .flatMap(({ id }) => [
        ...early(night, pilot.id, id, usualMinutes),
        // One that dithers by itself need not begin with the pilot.
        ...(dithersByItself(night, id) ? [] : late(night, pilot.id, id, usualMinutes, lateMinutes)),
      ]);
  },
};

function dithersByItself({ timeline }: NightFacts, companion: string): boolean {
  return timeline.clocks.some(({ train, by }) => train === companion && by === KEEPS_TO_NONE);
}

/** Frames ruined because the mount was pointing, or guiding was starting, when they began. */
function early(night: NightFacts, pilot: string, companion: string, usualMinutes: number): FindingDraft[] {
  const kinds: readonly ActivityKind[] = [...POINTING_KINDS, 'guiding-start'];
  const pointing = night.timeline.activities.filter((a) => kinds.includes(a.kind));
  const pilotsFirst = lightsOf(night, pilot)[0]?.exposure.startMs ?? -Infinity;
  const spoilt = lightsOf(night, companion).filter((f) => {
    if (f.verdict === 'kept') return false;
    const within = pointing.some((a) => a.span.startMs <= f.exposure.startMs && a.span.endMs > f.exposure.startMs);
    const before =
      f.exposure.startMs < pilotsFirst &&
      pointing.some((a) => a.span.startMs < f.exposure.endMs && a.span.endMs > f.exposure.startMs);
    return within || before;
  });
  if (spoilt.length === 0) return [];
  // A later start saves the frame's time after the mount came to rest, and no more.
  const wonMs = sum(
    spoilt.map(({ exposure }) => {
      const restMs = Math.max(
        ...pointing.flatMap((a) =>
          a.span.startMs < exposure.endMs && a.span.endMs > exposure.startMs ? [a.span.endMs] : [],
        ),
      );
      return Math.max(0, exposure.endMs - restMs);
    }),
  );
  return [
    {
      title: `${companion} began ${counted(spoilt.length, 'frame')} before the mount had come to rest`,
      costMs: exposedMs(spoilt),
      frames: spoilt.length,
      evidence: firstOf(
        spoilt.map(
          (f) =>
            `${clock(f.exposure.startMs, night)} ${companion} ${f.filter ?? ''}: ${f.causes[0]?.evidence ?? f.verdict}`,
        ),
      ),
      advice:
        `Start ${companion} with ${pilot}’s first exposure, or up to ${usualMinutes} minutes later, once centring ` +
        'and guiding have proved good; do the same after each slew.',
      winMs: Math.round(wonMs * keptShare(night, companion)),
      confidence: 'high',
      links: frameLinks(spoilt, night),
      minutes: exposures(spoilt),
    },
  ];
}

/** Idle time of the companion while the pilot was already exposing, at the start and after each pointing. */
function late(
  night: NightFacts,
  pilot: string,
  companion: string,
  usualMinutes: number,
  lateMinutes: number,
): FindingDraft[] {
  const pilots = lightsOf(night, pilot);
  const companions = lightsOf(night, companion);
  const delays = begins(night, pilots).flatMap(
    (begin, i, all): (TrainSpan & { pilotMs: number; first: JudgedFrame })[] => {
      const untilMs = all[i + 1] ?? Infinity;
      const lead = pilots.find((f) => f.exposure.startMs >= begin);
      const first = companions.find((f) => f.exposure.startMs >= begin);
      // Already exposing when the pilot began: not late.
      const open = companions.some(
        (f) => lead && f.exposure.startMs < lead.exposure.startMs && f.exposure.endMs > lead.exposure.startMs,
      );
      if (!lead || !first || open || first.exposure.startMs >= untilMs) return [];
      const delayMs = first.exposure.startMs - lead.exposure.startMs;
      if (delayMs <= lateMinutes * 60_000) return [];
      return [
        {
          train: companion,
          span: interval(lead.exposure.startMs + usualMinutes * 60_000, first.exposure.startMs),
          pilotMs: lead.exposure.startMs,
          first,
        },
      ];
    },
  );
  const costMs = sum(delays.map((d) => durationMs(d.span)));
  if (costMs <= 0) return [];
  const isAtStart = delays.length === 1 && delays[0]?.first.id === companions[0]?.id;
  const win = winOfTime(night, companion, costMs, isAtStart ? `start-offset-${companion}-2.5` : '');
  return [
    {
      title: `${companion} began ${duration(costMs)} too late`,
      costMs,
      evidence: [
        ...delays.map(
          (d) =>
            `${pilot} exposed from ${clock(d.pilotMs, night)}, ${companion} from ` +
            `${clock(d.first.exposure.startMs, night)}`,
        ),
        win.evidence,
      ],
      advice:
        `Let ${companion} begin 2 to ${usualMinutes} minutes after ${pilot}, with a delay in its plan rather than ` +
        'by hand.',
      winMs: win.winMs,
      confidence: night.timeline.headersOnly ? 'medium' : 'high',
      links: frameLinks(
        delays.map((d) => d.first),
        night,
      ),
      minutes: delays.map(({ train, span }) => ({ train, span })),
    },
  ];
}

/** When imaging resumed: at the start, and at the end of each pointing or hold. */
function begins(night: NightFacts, pilots: readonly JudgedFrame[]): number[] {
  const kinds: readonly ActivityKind[] = [...POINTING_KINDS, 'hold'];
  const first = pilots[0]?.exposure.startMs;
  if (first === undefined) return [];
  const ends = night.timeline.activities
    .filter((a) => kinds.includes(a.kind) && a.train === undefined && a.span.endMs > first)
    .map((a) => a.span.endMs);
  // A slew and its centring are one pointing: the last end before the pilot exposes again counts.
  const leads = groupBy(
    ends.flatMap((endMs) => {
      const next = pilots.find((f) => f.exposure.startMs >= endMs);
      return next === undefined ? [] : [{ endMs, next }];
    }),
    ({ next }) => next,
  );
  return [first, ...[...leads.values()].map((own) => Math.max(...own.map(({ endMs }) => endMs)))];
}
