/** Exposures of two trains whose lengths do not meet at the dither: frames × period of one versus the other's. */
import {
  duration,
  durationMs,
  interval,
  isReplayed,
  median,
  partitionPoint,
  sum,
  type DitherCycle,
  type JudgedFrame,
  type NightFacts,
  type WhatIf,
  ownValue,
  lightsOf,
  increment,
} from '../model/index.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { bestWhatIf, replayedAdvice, ruleOf, usualExposureMs, usualPauseMs } from './trains.js';

interface Cadence {
  readonly train: string;
  readonly lights: readonly JudgedFrame[];
  readonly exposureMs: number;
  readonly periodMs: number;
}

/** A dither at which two cadences met or missed each other. */
interface Meeting {
  readonly cycle: DitherCycle;
  readonly counts: readonly [number, number];
  readonly apartMs: number;
  /** The part of the earlier train's wait explained by the cadences. */
  readonly lost: TrainSpan;
}

export const unequalExposures: FindingModule<{
  readonly minimumMinutes: number;
  readonly minimumApartSeconds: number;
}> = {
  id: 'unequal-exposures',
  title: 'Exposure lengths of the trains',
  needs: ['two-trains', 'dithers', 'lights'],
  defaults: { minimumMinutes: 5, minimumApartSeconds: 15 },
  find(night, { minimumMinutes, minimumApartSeconds }) {
    const [first, ...others] = night.gathered.trains.map((t) => cadenceOf(night, t.id));
    return others.flatMap((other) => {
      if (!first || !other || !Number.isFinite(first.periodMs + other.periodMs)) return [];
      const meetings = meetingsOf(night, first, other).filter((m) => m.apartMs >= minimumApartSeconds * 1000);
      const costMs = sum(meetings.map((m) => durationMs(m.lost.span)));
      const usual = usualMeeting(meetings);
      if (costMs < minimumMinutes * 60_000 || !usual) return [];
      const [n, m] = usual.counts;
      const way = wayOf(first, other, n, m);
      // One length in one piece of advice: the replayed one, which was tried on the whole night.
      const best = bestWhatIf(night, way.isSettledBy);
      return [
        {
          title: way.title,
          costMs,
          evidence: [
            `with readout, ${n} × ${length(first.periodMs)} on ${first.train} are ` +
              `${length(n * first.periodMs)} and ${m} × ${length(other.periodMs)} on ${other.train} are ` +
              `${length(m * other.periodMs)}: ${duration(usual.apartMs)} apart`,
            `so at ${meetings.length} of ${night.accounts.dithers.length} dithers, ${duration(costMs)} in all`,
            ...(best ? [] : way.evidence),
          ],
          advice: best ? replayedAdvice(best) : way.advice,
          foldedAdvice: '',
          ...winOf(night, best, costMs),
          confidence: night.timeline.headersOnly ? ('medium' as const) : ('high' as const),
          links: [{ text: 'Replay', anchor: 'replay' }],
          minutes: meetings.map((meeting) => meeting.lost),
        },
      ];
    });
  },
};

interface Way {
  readonly title: string;
  readonly evidence: readonly string[];
  readonly advice: string;
  /** Whether a question of the replay asked for this. */
  readonly isSettledBy: (whatIf: WhatIf) => boolean;
}

/** What brings two trains together: equal cadences miss a dither by a frame begun too soon, others by their lengths. */
function wayOf(first: Cadence, other: Cadence, n: number, m: number): Way {
  const [few, more] = n < m ? [first, other] : [other, first];
  if (Math.abs(first.periodMs - other.periodMs) * Math.max(n, m) < 0.5 * other.periodMs && n !== m)
    return {
      title:
        `${more.train} begins one more exposure just before the dither: ${first.train} at ` +
        `${length(first.exposureMs)}, ${other.train} at ${length(other.exposureMs)}`,
      evidence: [`${few.train} waits for it each time, though equal frames would end together`],
      advice:
        `Let ${more.train} begin no exposure when a dither is due within a minute, or let the same program start ` +
        'both trains’ exposures.',
      isSettledBy: (w) => w.settings.length > 0 && w.settings.every((s) => s.startsWith('patience.')),
    };
  const fitSeconds = Math.floor(((n * first.periodMs) / m - (other.periodMs - other.exposureMs)) / 1000);
  // A sub that changes by more than half is another question: sky and read noise decide it.
  const ratio = first.exposureMs / other.exposureMs;
  const equal = ratio >= 0.5 && ratio <= 2 ? `${length(first.exposureMs)} on both, or ` : '';
  return {
    title:
      `${first.train} at ${length(first.exposureMs)} and ${other.train} at ${length(other.exposureMs)} do ` +
      'not end together at the dither',
    evidence: [
      `${m} × ${fitSeconds} s on ${other.train} would end with ${n} × ${length(first.exposureMs)} on ${first.train}`,
    ],
    advice: `Expose ${equal}${fitSeconds} s on ${other.train}; a new length needs its own darks.`,
    isSettledBy: (w) =>
      w.group === 'companion-exposure' && w.settings.some((setting) => isExposureOf(setting, other.train)),
  };
}

/**
 * The replay's gain with the companion in step, limited to its cost; nothing is claimed if the replay found nothing.
 */
function winOf(
  night: NightFacts,
  best: WhatIf | null,
  costMs: number,
): Pick<FindingDraft, 'winMs' | 'newDarks' | 'rule'> {
  if (!isReplayed(night.replay) || night.replay.confidence === 'low') return { winMs: costMs };
  return best ? { winMs: Math.min(costMs, best.gain.meanMs), newDarks: best.newDarks, rule: ruleOf(best) } : {};
}

/** `exposure.wren=230`, or of one of its filters: `exposure.wren.Ha=230`. */
function isExposureOf(setting: string, train: string): boolean {
  return setting.startsWith(`exposure.${train}=`) || setting.startsWith(`exposure.${train}.`);
}

function cadenceOf(night: NightFacts, train: string): Cadence {
  const lights = lightsOf(night, train);
  const exposureMs = usualExposureMs(lights);
  const pauseMs = usualPauseMs(night, lights);
  return { train, lights, exposureMs, periodMs: exposureMs + (Number.isFinite(pauseMs) ? pauseMs : 0) };
}

function meetingsOf(night: NightFacts, a: Cadence, b: Cadence): Meeting[] {
  return night.accounts.dithers.slice(1).flatMap((cycle, i): Meeting[] => {
    const previous = night.accounts.dithers[i];
    const counts: [number, number] = [between(a.lights, previous, cycle), between(b.lights, previous, cycle)];
    // Only whole blocks of frames of the usual length: a hold or a refocus inside is unrelated to the cadences.
    if (
      counts[0] === 0 ||
      counts[1] === 0 ||
      !isWhole(a, previous, cycle, counts[0]) ||
      !isWhole(b, previous, cycle, counts[1])
    )
      return [];
    const apartMs = counts[0] * a.periodMs - counts[1] * b.periodMs;
    const early = apartMs < 0 ? a : b;
    const wait = ownValue(cycle.waits, early.train);
    if (!wait || wait.waitMs <= 0) return [];
    const lostMs = Math.min(wait.waitMs, Math.round(Math.abs(apartMs)));
    return [
      {
        cycle,
        counts,
        apartMs: Math.abs(apartMs),
        lost: { train: early.train, span: interval(wait.readyMs, wait.readyMs + lostMs) },
      },
    ];
  });
}

function between(lights: readonly JudgedFrame[], previous: DitherCycle | undefined, cycle: DitherCycle): number {
  return (
    partitionPoint(lights, (f) => f.exposure.startMs >= cycle.beginMs) -
    partitionPoint(lights, (f) => f.exposure.startMs >= (previous?.beginMs ?? -Infinity))
  );
}

/** Whether the train only exposed between the two dithers. */
function isWhole(
  { train, periodMs }: Cadence,
  previous: DitherCycle | undefined,
  cycle: DitherCycle,
  count: number,
): boolean {
  const readyMs = ownValue(cycle.waits, train)?.readyMs;
  if (previous === undefined || readyMs === undefined) return false;
  const workedMs = readyMs - (previous.settle?.endMs ?? previous.move.endMs);
  return Math.abs(workedMs - count * periodMs) <= 0.1 * periodMs + 5000;
}

/** The meeting with the counts that occur most often. */
function usualMeeting(meetings: readonly Meeting[]): Meeting | undefined {
  const key = (m: Meeting): string => m.counts.join(':');
  const times = new Map<string, number>();
  for (const m of meetings) increment(times, key(m));
  const most = Math.max(0, ...times.values());
  const common = meetings.filter((m) => times.get(key(m)) === most);
  const middle = median(common.map((m) => m.apartMs));
  return common.find((m) => Math.abs(m.apartMs - middle) < 1000) ?? common[0];
}

function length(ms: number): string {
  return `${Number((ms / 1000).toFixed(1))} s`;
}
