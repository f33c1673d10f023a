/**
 * A train that changes its filter so often that wheel movements, and other trains' waits for them at dithers, take part
 * of the night.
 */
import {
  about,
  counted,
  duration,
  durationMs,
  itemAt,
  lightsOf,
  listed,
  median,
  percent,
  sum,
  type JudgedFrame,
  type NightFacts,
  type WhatIf,
} from '../model/index.js';
import { filterChanges, filterWaits, lengthOf } from './filter-time.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { keptShare, ruleOf, usualExposureMs, whatIfOf } from './trains.js';
import { inSentence } from './wording.js';

export const filterChangesOften: FindingModule<{ readonly minimumMinutes: number; readonly rowMinutes: number }> = {
  id: 'filter-changes',
  title: 'Filter changes',
  needs: ['lights'],
  // Filters in runs of a quarter of an hour still divide a night evenly; common practice, no source.
  defaults: { minimumMinutes: 10, rowMinutes: 15 },
  find(night, { minimumMinutes, rowMinutes }) {
    const all = night.gathered.trains.flatMap(({ id }): Changed[] => {
      const changes = filterChanges(night, id);
      const lights = lightsOf(night, id);
      if (changes.length === 0 || lights.length === 0) return [];
      const usualMs = usualExposureMs(lights);
      const row =
        rowsIn(whatIfOf(night, `filter-row-${id}`), id) ?? rowOf(night, lights, (rowMinutes * 60_000) / usualMs);
      const own = changes.map((span): TrainSpan => ({ train: id, span }));
      const minutes = [...own, ...filterWaits(night, id)];
      const costMs = lengthOf(minutes);
      // Changes that runs of that length need in any case.
      const savedShare = 1 - Math.min(1, Math.ceil(lights.length / row) / Math.max(1, changes.length));
      const savedMs = costMs * savedShare;
      if (!(savedMs >= minimumMinutes * 60_000)) return [];
      const frames = lights.length;
      return [
        { id, frames, changesMs: changes.map(durationMs), ownMs: lengthOf(own), minutes, row, savedShare, usualMs },
      ];
    });
    // Two wheels turn at one time: a train that changes less often would wait for the other's all the same.
    const together = all.length > 1 ? whatIfOf(night, 'filter-rows') : null;
    if (together) return [findingOf(night, all, together)];
    return all.map((one) => findingOf(night, [one], whatIfOf(night, `filter-row-${one.id}`)));
  },
};

/** A train that changed its filter often. */
interface Changed {
  readonly id: string;
  readonly frames: number;
  readonly changesMs: readonly number[];
  readonly ownMs: number;
  /** Its changes, and the waits of others for them. */
  readonly minutes: readonly TrainSpan[];
  /** Frames that should share a filter. */
  readonly row: number;
  readonly savedShare: number;
  readonly usualMs: number;
}

/** @param whatIf the replay of the advice */
function findingOf(night: NightFacts, all: readonly Changed[], whatIf: WhatIf | null): FindingDraft {
  const minutes = all.flatMap((one) => one.minutes);
  const costMs = lengthOf(minutes);
  const winMs = whatIf
    ? Math.max(0, Math.round(whatIf.gain.meanMs))
    : Math.round(sum(all.map((one) => winOf(night, one.minutes, one.savedShare))));
  const trains = listed(all.map(({ id }) => id));
  const isOne = all.length === 1;
  const waitedMs = costMs - sum(all.map(({ ownMs }) => ownMs));
  return {
    title:
      `${trains} changed ${isOne ? 'its filter' : 'their filters'} ` +
      `${listed(all.map(({ changesMs }) => String(changesMs.length)))} times`,
    costMs,
    evidence: [
      ...all.map(
        ({ id, frames, changesMs, ownMs, row, savedShare }) =>
          `${isOne ? '' : `${id}: `}${counted(frames, 'frame')}; a change took ${duration(median(changesMs))} ` +
          `(median), ${duration(ownMs)} in all; in runs of ${row} frames ${percent(savedShare)} of that would have ` +
          'been saved',
      ),
      ...(waitedMs > 0 ? [`other trains waited at dithers for ${duration(waitedMs)} of it`] : []),
      ...(whatIf ? [`replayed so, the night keeps ${about(winMs)} more on all trains together`] : []),
    ],
    advice:
      `Take ${listed(all.map(({ id, row }) => `${row} frames per filter on ${id}`))} before changing it, rather ` +
      `than change so often: the wheel then turns only every ` +
      `${duration(Math.max(...all.map(({ row, usualMs }) => row * usualMs)))} or so, and the filters still share the ` +
      `night evenly.${whatIf ? ` As replayed: ${inSentence(whatIf.title)}.` : ''}`,
    foldedAdvice: '',
    ...(winMs > 0 || whatIf ? { winMs } : {}),
    ...(whatIf ? { rule: ruleOf(whatIf) } : {}),
    confidence: night.timeline.headersOnly ? ('medium' as const) : ('high' as const),
    links: [{ text: whatIf ? 'Replay' : 'Ledger', anchor: whatIf ? 'replay' : 'ledger' }],
    minutes,
  };
}

/** The frames in a row that a what-if asked about for a train. */
function rowsIn(whatIf: WhatIf | null, train: string): number | null {
  const setting = whatIf?.settings.find((s) => s.startsWith(`filter-row.${train}=`));
  return setting === undefined ? null : Number(setting.slice(setting.indexOf('=') + 1));
}

/** Consecutive frames: whole blocks between two dithers, if these are known. */
function rowOf({ accounts: { dithers } }: NightFacts, lights: readonly JudgedFrame[], frames: number): number {
  const least = Math.max(2, Math.ceil(frames));
  const between = dithers.slice(1).flatMap(({ beginMs }, i) => {
    const sinceMs = itemAt(dithers, i).beginMs;
    const own = lights.filter(({ exposure }) => exposure.startMs >= sinceMs && exposure.startMs < beginMs);
    return own.length > 0 ? [own.length] : [];
  });
  const usual = between.length > 0 ? Math.max(1, Math.round(median(between))) : 1;
  return Math.ceil(least / usual) * usual;
}

/** What the trains would have kept in the time saved: the same fraction as of their other working hours. */
function winOf(night: NightFacts, minutes: readonly TrainSpan[], savedShare: number): number {
  return sum(
    night.gathered.trains.map(({ id }) => {
      const lostMs = lengthOf(minutes.filter(({ train }) => train === id));
      const kept = night.accounts.ledgers.find(({ train }) => train === id)?.totalsMs.kept;
      if (lostMs === 0 || kept === undefined || kept === 0) return 0;
      const workedMs = kept / keptShare(night, id);
      return lostMs * savedShare * Math.min(1, kept / (workedMs - lostMs * savedShare));
    }),
  );
}
