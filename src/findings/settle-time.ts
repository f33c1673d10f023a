/** Settling after dithers that takes longer than the mount needs, or whose criterion is too strict to be met. */
import {
  CAUTION,
  counted,
  duration,
  durationMs,
  interval,
  median,
  partitionPoint,
  sum,
  times,
  type DitherCycle,
  type GuidingSeries,
  type Interval,
  type NightFacts,
  itemAt,
} from '../model/index.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { keptShare } from './trains.js';

interface Settling {
  readonly cycle: DitherCycle;
  readonly span: Interval;
  /** When guiding was finally quiet, from its samples; `null` if they do not show it. */
  readonly quietMs: number | null;
}

export const settleTime: FindingModule<{
  readonly usualSeconds: number;
  readonly longSeconds: number;
  readonly minimumMinutes: number;
  readonly failedShare: number;
  readonly quietRms: number;
}> = {
  id: 'settle-time',
  title: 'Settling after dithers',
  needs: ['settling'],
  // Ten to twenty seconds of settling are common practice, no source.
  defaults: { usualSeconds: 12, longSeconds: 25, minimumMinutes: 5, failedShare: 0.2, quietRms: 1.5 },
  find(night, { usualSeconds, longSeconds, minimumMinutes, failedShare, quietRms }) {
    const settlings = night.accounts.dithers.flatMap((cycle): Settling[] =>
      cycle.settle ? [{ cycle, span: cycle.settle, quietMs: quietSince(cycle.settle, night, quietRms) }] : [],
    );
    const measured = settlings.flatMap((s) => (s.quietMs === null ? [] : [{ ...s, quietMs: s.quietMs }]));
    const bySamples = measured.length >= settlings.length / 2;
    const needless = settlings.flatMap((s) => needlessSpan(s, bySamples, usualSeconds));
    const lengths = settlings.map((s) => durationMs(s.span));
    const failed = night.timeline.activities.filter((a) => a.kind === 'settling' && a.facts?.ok === false).length;
    const minutes = needless.flatMap(({ cycle, span }) => takers(cycle).map((train): TrainSpan => ({ train, span })));
    const costMs = sum(minutes.map((m) => durationMs(m.span)));
    const usual = median(lengths);
    const isLong = bySamples
      ? usual > usualSeconds * 1000 && median(needless.map((n) => durationMs(n.span))) >= 5000
      : usual >= longSeconds * 1000;
    const isStrict = failed > 0 && failed >= failedShare * settlings.length;
    if ((!isLong && !isStrict) || costMs < minimumMinutes * 60_000) return [];
    return [
      {
        title: isStrict
          ? `Settling gave up ${times(failed)}: its limit is too strict`
          : `Settling took ${duration(median(lengths))} per dither, longer than the mount needs`,
        costMs,
        evidence: [
          `${counted(settlings.length, 'settling')}: median ${duration(median(lengths))}, ` +
            `${duration(Math.max(...lengths))} at most${failed > 0 ? `, ${failed} without success` : ''}`,
          bySamples
            ? `by the guiding samples the error stayed below ${quietRms} times the night’s RMS from ` +
              `${duration(median(measured.map((s) => Math.max(0, s.quietMs - s.span.startMs))))} on (median)`
            : `no guiding samples show when the mount came to rest; ${usualSeconds} s is usual`,
          ...distance(night),
        ],
        advice:
          `Count the guiding as settled after a few seconds below about ${quietRms} times its usual RMS, rather ` +
          'than by a stricter limit or a longer pause; dither by fewer pixels if the moves are long.',
        winMs: Math.round(sum(minutes.map((m) => durationMs(m.span) * keptShare(night, m.train)))),
        confidence: bySamples ? 'high' : 'medium',
        links: [
          { text: 'Every dither', anchor: 'dithers' },
          { text: 'Guiding', anchor: 'guiding' },
        ],
        caution: CAUTION,
        claimsFirst: true,
        minutes,
      },
    ];
  },
};

/** The part of a settling in which there was nothing left to wait for. */
function needlessSpan(
  { cycle, span, quietMs }: Settling,
  bySamples: boolean,
  usualSeconds: number,
): { cycle: DitherCycle; span: Interval }[] {
  const fromMs = bySamples ? quietMs : span.startMs + usualSeconds * 1000;
  return fromMs !== null && fromMs < span.endMs ? [{ cycle, span: interval(Math.round(fromMs), span.endMs) }] : [];
}

/**
 * The first instant by which the error had been within the limit for a few seconds, as the advised rule would have it.
 * Guiding noise crosses the limit now and then: only where it goes on doing so is the mount still swinging.
 */
function quietSince(span: Interval, night: NightFacts, quietRms: number): number | null {
  const {
    gathered: { guiding },
    accounts: { guidingOverall },
  } = night;
  if (!guiding || !guidingOverall) return null;
  const limit = quietRms * guidingOverall.totalRmsArcsec;
  const first = partitionPoint(guiding.atMs, (t) => t >= span.startMs);
  const end = partitionPoint(guiding.atMs, (t) => t >= span.endMs);
  if (end - first < MIN_SAMPLES) return null;
  const isBeyond = Array.from({ length: end - first }, (_, i) => errorAt(guiding, first + i) > limit);
  let beyond = isBeyond.filter(Boolean).length;
  let calm = first;
  for (let i = first; i < end; i++) {
    const atMs = itemAt(guiding.atMs, i);
    if (isBeyond[i - first]) {
      beyond--;
      calm = i + 1;
    } else if (
      i - calm + 1 >= PROOF_SAMPLES &&
      atMs - itemAt(guiding.atMs, calm) >= PROOF_MS &&
      beyond <= NOISE_SHARE * (end - i - 1)
    )
      return atMs;
  }
  return span.endMs;
}

/** Fewer samples than this within a settling do not tell when the mount was quiet. */
const MIN_SAMPLES = 4;
/** How long the error must stay small to count as settled, ms, and in how many samples. Common practice, no source. */
const PROOF_MS = 4000;
const PROOF_SAMPLES = 3;
/**
 * Errors that scatter normally on two axes are beyond 1.5 times their RMS in exp(−1.5²), a tenth, of the samples
 * (Rayleigh distribution); more than a quarter is the mount.
 */
const NOISE_SHARE = 0.25;

function errorAt({ raArcsec, decArcsec }: GuidingSeries, i: number): number {
  return Math.hypot(itemAt(raArcsec, i), itemAt(decArcsec, i));
}

/** Trains that took part in a dither: its settling cost each of them. */
function takers(cycle: DitherCycle): string[] {
  return Object.entries(cycle.waits).flatMap(([train, wait]) => (wait ? [train] : []));
}

function distance({ accounts: { dithers } }: NightFacts): string[] {
  const pixels = dithers.flatMap((d) => d.pixels ?? []);
  return pixels.length === 0 ? [] : [`median dither ${median(pixels).toFixed(1)} pixels`];
}
