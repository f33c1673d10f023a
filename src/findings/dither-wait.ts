/**
 * Time that trains stood ready while another train's exposure held the dither back.
 */
import {
  counted,
  duration,
  groupBy,
  interval,
  isReplayed,
  median,
  sum,
  type DitherCycle,
  type DitherWait,
  type NightFacts,
  type WhatIfGroup,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { bestWhatIf, darksSentence } from './trains.js';
import { inSentence } from './wording.js';

/** What-ifs that bring the trains' shutters together. */
const STEPS: readonly WhatIfGroup[] = ['companion-exposure', 'dither-lead', 'dither-every'];

interface Waited {
  readonly train: string;
  readonly wait: DitherWait;
  readonly cycle: DitherCycle;
}

export const ditherWait: FindingModule<{ readonly minimumMinutes: number; readonly usualSeconds: number }> = {
  id: 'dither-wait',
  title: 'Waiting for dithers',
  needs: ['two-trains', 'dithers'],
  // A few seconds per cycle are the price of two computers agreeing; common practice, no source.
  defaults: { minimumMinutes: 5, usualSeconds: 10 },
  find(night, { minimumMinutes, usualSeconds }) {
    const waited = night.accounts.dithers.flatMap((cycle) =>
      Object.entries(cycle.waits).flatMap(([train, wait]): Waited[] => (wait ? [{ train, wait, cycle }] : [])),
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
            `${counted(own.length, 'dither')}: ${train} waited ` +
              `${duration(median(own.map((w) => w.wait.waitMs)))} each time (median), ` +
              `${duration(Math.max(...own.map((w) => w.wait.waitMs)))} at most`,
            ...(holder
              ? [
                  `${holder.train} was ready last in ${holder.times} of them and held ${train} for ` +
                    `${duration(holder.ms)}`,
                ]
              : []),
          ],
          ...counsel(night, train, holder?.train ?? 'the other train', beyondUsualMs, costMs / allMs),
          confidence: own.every((w) => w.wait.certainty === 'measured') ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Dither cycles', anchor: 'dithers' }, ...longest(own, night)],
          minutes: own
            .filter((w) => w.wait.waitMs > 0)
            .map((w) => ({ train, span: interval(w.wait.readyMs, w.cycle.beginMs) })),
        },
      ];
    });
  },
};

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
 * What to change: what the replay found best where there is one. Its gain is shared among the trains as their waits
 * are.
 */
function counsel(
  night: NightFacts,
  train: string,
  holder: string,
  beyondUsualMs: number,
  share: number,
): Pick<FindingDraft, 'advice' | 'winMs' | 'newDarks'> {
  const best = bestWhatIf(night, (w) => STEPS.includes(w.group));
  const general =
    `Let ${train} and ${holder} end their exposures together before a dither: equal subs, or one a whole ` +
    'multiple of the other.';
  // A replay that knows the night and finds nothing within the limits promises nothing.
  if (!best)
    return {
      advice: `${general} Or dither less often, as long as each filter keeps a dozen places.`,
      ...(isReplayed(night.replay) && night.replay.confidence !== 'low' ? {} : { winMs: beyondUsualMs }),
    };
  return {
    advice:
      `Try this: ${inSentence(best.title)}. Replayed with that rule, the night keeps ${duration(best.gain.meanMs)} ` +
      `more on all trains together.${darksSentence(best)} ${general}`,
    ...(best.newDarks.length > 0 ? { newDarks: best.newDarks } : {}),
    winMs: Math.round(Math.min(beyondUsualMs, best.gain.meanMs * share)),
  };
}

/** The longest wait, to look at. */
function longest(own: readonly Waited[], night: NightFacts): { text: string; anchor: string }[] {
  const worst = own.reduce((a, b) => (b.wait.waitMs > a.wait.waitMs ? b : a));
  const number = night.accounts.dithers.indexOf(worst.cycle) + 1;
  return number > 0 ? [{ text: `the longest, no. ${number}`, anchor: `dither-${number}` }] : [];
}
