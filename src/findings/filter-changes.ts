/**
 * A train that changes its filter so often that wheel movements, and other trains' waits for them at dithers, take part
 * of the night.
 */
import {
  counted,
  duration,
  durationMs,
  itemAt,
  lightsOf,
  median,
  percent,
  sum,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { filterChanges, filterWaits, lengthOf } from './filter-time.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { keptShare, usualExposureMs } from './trains.js';

export const filterChangesOften: FindingModule<{ readonly minimumMinutes: number; readonly rowMinutes: number }> = {
  id: 'filter-changes',
  title: 'Filter changes',
  needs: ['lights'],
  // Filters in runs of a quarter of an hour still divide a night evenly; common practice, no source.
  defaults: { minimumMinutes: 10, rowMinutes: 15 },
  find(night, { minimumMinutes, rowMinutes }) {
    return night.gathered.trains.flatMap(({ id }) => {
      const changes = filterChanges(night, id);
      const lights = lightsOf(night, id);
      if (changes.length === 0 || lights.length === 0) return [];
      const usualMs = usualExposureMs(lights);
      const row = rowOf(night, lights, (rowMinutes * 60_000) / usualMs);
      const own = changes.map((span): TrainSpan => ({ train: id, span }));
      const minutes = [...own, ...filterWaits(night, id)];
      const costMs = lengthOf(minutes);
      // Changes that runs of that length need in any case.
      const savedShare = 1 - Math.min(1, Math.ceil(lights.length / row) / Math.max(1, changes.length));
      const savedMs = costMs * savedShare;
      if (!(savedMs >= minimumMinutes * 60_000)) return [];
      const winMs = Math.round(winOf(night, minutes, savedShare));
      return [
        {
          title: `${id} changed its filter ${changes.length} times`,
          costMs,
          evidence: [
            `${counted(lights.length, 'frame')}; a change took ${duration(median(changes.map(durationMs)))} ` +
              `(median), ${duration(lengthOf(own))} in all`,
            ...(minutes.length > own.length
              ? [`other trains stood ready at dithers for ${duration(costMs - lengthOf(own))} of it`]
              : []),
            `in rows of ${row} frames ${percent(savedShare)} of that would not have been`,
          ],
          advice:
            `Take ${row} frames through a filter of ${id} before the next, rather than change it so often: the wheel ` +
            `then turns every ${duration(row * usualMs)} or so, and the filters still share the night evenly.`,
          foldedAdvice: '',
          ...(winMs > 0 ? { winMs } : {}),
          confidence: night.timeline.headersOnly ? ('medium' as const) : ('high' as const),
          links: [{ text: 'Ledger', anchor: 'ledger' }],
          minutes,
        },
      ];
    });
  },
};

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
