/** Time that trains were ready while another train's exposure delayed the dither. */
import {
  clip,
  counted,
  coveredMs,
  duration,
  groupBy,
  interval,
  isReplayed,
  lightsOf,
  median,
  subtract,
  sum,
  union,
  type DitherCycle,
  type DitherWait,
  type Interval,
  type NightFacts,
  type WhatIf,
  type WhatIfGroup,
} from '../model/index.js';
import { holdingOf } from './dither-holder.js';
import { filterWaits, lengthOf } from './filter-time.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { bestWhatIf, replayedAdvice, ruleOf, usualExposureMs, whatIfOf } from './trains.js';

/** What-ifs that synchronise the trains' shutters. */
const STEPS: readonly WhatIfGroup[] = ['companion-exposure', 'dither-lead', 'dither-every'];

/** Trains are in step if at most this fraction of the dithers found one waiting. */
const FEW_SHARE = 0.15;
/** Lengths that differ by a smaller share count as equal. */
const EQUAL_SHARE = 0.02;
/** Waits of which refocuses took so much are theirs: a frame often follows before the dither. */
const FOCUSED_SHARE = 0.4;
/** Smaller gains are ignored, ms. */
const LEAST_MS = 60_000;

/** `59 dithers`, `84 of 85 dithers`. */
function ofAll(count: number, all: number): string {
  return count === all ? counted(count, 'dither') : `${count} of ${counted(all, 'dither')}`;
}

/** The waits of one train. */
interface Case {
  readonly holder: string;
  readonly own: readonly Waited[];
  /** Waits beyond what two computers need to synchronise, ms. */
  readonly beyondUsualMs: number;
  /** As a fraction of all trains' waits. */
  readonly share: number;
  /** Trains whose waits are no longer than this are in step, ms. */
  readonly inStepMs: number;
}

interface Waited {
  readonly train: string;
  readonly wait: DitherWait;
  readonly cycle: DitherCycle;
  /** When it waited. */
  readonly spans: readonly Interval[];
}

export const ditherWait: FindingModule<{ readonly minimumMinutes: number; readonly usualSeconds: number }> = {
  id: 'dither-wait',
  title: 'Waiting for dithers',
  needs: ['two-trains', 'dithers'],
  // A few seconds per cycle are the price of synchronising two computers; common practice, no source.
  defaults: { minimumMinutes: 5, usualSeconds: 10 },
  find(night, { minimumMinutes, usualSeconds }) {
    const waited = night.accounts.dithers.flatMap((cycle) =>
      Object.entries(cycle.waits).flatMap(([train, wait]): Waited[] =>
        wait ? [waitedOf(night, train, wait, cycle)] : [],
      ),
    );
    const allMs = sum(waited.map((w) => w.wait.waitMs));
    return [...groupBy(waited, (w) => w.train)].flatMap(([train, own]) => {
      const costMs = sum(own.map((w) => w.wait.waitMs));
      const beyondUsualMs = sum(own.map((w) => Math.max(0, w.wait.waitMs - usualSeconds * 1000)));
      if (beyondUsualMs < minimumMinutes * 60_000) return [];
      const holder = mainHolder(train, own);
      return [
        {
          title: `${train} waited ${duration(costMs)} for dithers`,
          costMs,
          evidence: [
            `${ofAll(own.length, night.accounts.dithers.length)}: ${train} waited ` +
              `${duration(median(own.map((w) => w.wait.waitMs)))} each time (median), ` +
              `${duration(Math.max(...own.map((w) => w.wait.waitMs)))} at most`,
            ...(holder
              ? [
                  `${holder.train} was ready last in ${holder.times} of them and held ${train} up for ` +
                    `${duration(holder.ms)}`,
                ]
              : []),
          ],
          ...counsel(night, train, {
            holder: holder?.train ?? 'the other train',
            own,
            beyondUsualMs,
            share: costMs / allMs,
            inStepMs: usualSeconds * 1000,
          }),
          confidence: own.every((w) => w.wait.certainty === 'measured') ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Every dither', anchor: 'dithers' }, ...longest(own, night)],
          minutes: own.flatMap(({ spans }) => spans.map((span) => ({ train, span }))),
        },
      ];
    });
  },
};

/** A wait without its overlap with holds: a closing roof, or a cloud, has nothing to do with the dither. */
function waitedOf({ timeline }: NightFacts, train: string, wait: DitherWait, cycle: DitherCycle): Waited {
  const holds = timeline.activities
    .filter((a) => a.kind === 'hold' && (a.train === undefined || a.train === train))
    .map(({ span }) => span);
  if (wait.waitMs <= 0 || holds.length === 0)
    return { train, wait, cycle, spans: wait.waitMs > 0 ? [interval(wait.readyMs, cycle.beginMs)] : [] };
  const spans = subtract([interval(wait.readyMs, cycle.beginMs)], holds);
  return { train, wait: { ...wait, waitMs: coveredMs(spans) }, cycle, spans };
}

/** The other train that held this one longest. */
function mainHolder(train: string, own: readonly Waited[]): { train: string; ms: number; times: number } | null {
  const held = [
    ...groupBy(
      own.filter((w) => w.cycle.holder !== null && w.cycle.holder !== train),
      (w) => w.cycle.holder ?? '',
    ),
  ].map(([holder, by]) => ({
    train: holder,
    ms: sum(by.map((w) => w.wait.waitMs)),
    times: by.length,
  }));
  return held.sort((a, b) => b.ms - a.ms)[0] ?? null;
}

/**
 * What to change: the best what-if of the replay, if there is one. Its gain is divided among the trains in proportion
 * to their waits.
 */
function counsel(
  night: NightFacts,
  train: string,
  { holder, own, beyondUsualMs, share, inStepMs }: Case,
): Pick<FindingDraft, 'advice' | 'foldedAdvice' | 'winMs' | 'newDarks' | 'rule'> {
  const isTrusted = isReplayed(night.replay) && night.replay.confidence !== 'low';
  const costMs = sum(own.map((w) => w.wait.waitMs));
  if (focusedMs(night, own) >= FOCUSED_SHARE * costMs) {
    const together = whatIfOf(night, 'focus-together');
    const isVain = isTrusted && together !== null && together.gain.meanMs < LEAST_MS;
    return {
      advice: isVain
        ? `${train} waited for ${holder}’s refocuses, and refocusing together would gain nothing on this night: let ` +
          `${holder} refocus no more often than its stars need.`
        : `Refocus all trains together, at a dither: ${train} waited for ${holder}’s refocuses.`,
      ...(isVain ? {} : { winMs: Math.round(Math.min(beyondUsualMs, together?.gain.meanMs ?? beyondUsualMs)) }),
    };
  }
  const byFilters = lengthOf(filterWaits(night, holder).filter((one) => one.train === train));
  if (byFilters >= costMs / 2)
    return {
      advice:
        `Take more frames through each filter on ${holder} before changing it: filter changes between two dithers ` +
        `held ${train} for ${duration(byFilters)}.`,
      foldedAdvice: '',
    };
  const long = own.filter((w) => w.wait.waitMs > inStepMs);
  // No rule helps against a few long waits.
  if (long.length <= FEW_SHARE * own.length) {
    const holding = holdingOf(
      holder,
      long.flatMap(({ spans }) => spans),
      night,
    );
    return {
      advice:
        'At most dithers both were ready: ' +
        (holding ? `${holding.what}; ${holding.advice}` : `find out what delayed ${holder} at the longest waits.`),
      foldedAdvice: '',
      ...(isTrusted ? {} : { winMs: holding?.isHold ? 0 : beyondUsualMs }),
    };
  }
  const best = bestWhatIf(night, (w) => (STEPS.includes(w.group) || w.id === 'patience') && shortens(w, night));
  const general = areEqual(night, train, holder)
    ? `Let ${holder} begin no exposure when a dither is due within a minute: the subs are equal, and it begins one ` +
      'more just before.'
    : `Let ${train} and ${holder} end their exposures together before a dither: use equal subs, or one a whole ` +
      'multiple of the other.';
  // A reliable replay that finds nothing within the limits promises nothing.
  if (!best)
    return {
      advice: `${general} Or dither less often, as long as each filter keeps a dozen positions.`,
      ...(isTrusted ? {} : { winMs: beyondUsualMs }),
    };
  const winMs = Math.round(Math.min(beyondUsualMs, best.gain.meanMs * share));
  return {
    advice: `${replayedAdvice(best)} ${general}`,
    ...(best.newDarks.length > 0 ? { newDarks: best.newDarks } : {}),
    winMs,
    rule: ruleOf(best),
  };
}

/** Whether two trains expose equally long. */
function areEqual(night: NightFacts, train: string, holder: string): boolean {
  const [own, other] = [train, holder].map((id) => usualExposureMs(lightsOf(night, id)));
  return own !== undefined && other !== undefined && Math.abs(own - other) < EQUAL_SHARE * own;
}

/** Whether a rule removes half of the waits: a rule that gains only from fewer dithers is no advice on waiting. */
function shortens({ outcome }: WhatIf, { replay }: NightFacts): boolean {
  const waitedMs = (of: WhatIf['outcome']): number => sum(Object.values(of.trains).map((t) => t.waitedMs));
  return isReplayed(replay) && waitedMs(outcome) <= waitedMs(replay.baseline) / 2;
}

/** The part of the waits taken by other trains' refocuses: meanwhile, or earlier since the last dither. */
function focusedMs(night: NightFacts, own: readonly Waited[]): number {
  const { dithers } = night.accounts;
  const runs = night.timeline.activities.filter((a) => a.kind === 'focus');
  const focusIn = (span: Interval, isWanted: (train: string | undefined) => boolean): number =>
    coveredMs(clip(union(runs.filter((a) => isWanted(a.train)).map((a) => a.span)), span));
  return sum(
    own.map(({ train, wait, cycle }) => {
      const waited = interval(wait.readyMs, Math.max(wait.readyMs, cycle.beginMs));
      const sinceMs = dithers[dithers.indexOf(cycle) - 1]?.beginMs ?? waited.startMs;
      const since = interval(sinceMs, Math.max(sinceMs, cycle.beginMs));
      const late = focusIn(since, (id) => id === cycle.holder) - focusIn(since, (id) => id === train);
      const meanwhile = focusIn(waited, (id) => id !== train);
      return Math.max(meanwhile, Math.min(wait.waitMs, late));
    }),
  );
}

/** The longest wait, as an example. */
function longest(own: readonly Waited[], night: NightFacts): { text: string; anchor: string }[] {
  const worst = own.reduce((a, b) => (b.wait.waitMs > a.wait.waitMs ? b : a));
  const number = night.accounts.dithers.indexOf(worst.cycle) + 1;
  return number > 0 ? [{ text: `the longest, no. ${number}`, anchor: `dither-${number}` }] : [];
}
