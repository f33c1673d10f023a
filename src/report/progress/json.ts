import { itemAt } from '../../model/index.js';
import type { Outlook, Progress, ProgressLine, VerdictTally } from '../../model/index.js';
import type { ProgressPageOptions } from './context.js';

/** Version of `progress.json`'s layout. */
export const PROGRESS_SCHEMA = 'nightledger/progress/1';

const seconds = (ms: number | null): number | null => (ms === null ? null : ms / 1000);
const tally = ({ taken, kept, doubtful, lost }: VerdictTally) => ({
  taken: taken / 1000,
  kept: kept / 1000,
  doubtful: doubtful / 1000,
  lost: lost / 1000,
});

function line({ filter, train, goalMs, ms, frames, remainingMs, nights, keptByTrainMs }: ProgressLine) {
  return {
    filter,
    train,
    goalSeconds: seconds(goalMs),
    seconds: tally(ms),
    frames: { ...frames },
    remainingSeconds: seconds(remainingMs),
    nights,
    keptSecondsByTrain: Object.fromEntries(Object.entries(keptByTrainMs).map(([id, kept]) => [id, kept / 1000])),
  };
}

function outlookJson({ from, site, assumptions, pace, targets }: Outlook, share: boolean) {
  return {
    from,
    site: share ? null : site,
    assumptions,
    pace,
    targets: targets.map(({ name, season, months, remainingHours, wants, estimate }) => ({
      target: name,
      season,
      remainingHours,
      wants,
      estimate,
      months,
    })),
  };
}

/** The progress of an archive for other programs: seconds as numbers, dates as `YYYY-MM-DD`. */
export function toProgressJson(
  progress: Progress,
  outlook: Outlook | null,
  { version, share, counting = 'clock', linkTo }: ProgressPageOptions,
) {
  return {
    schema: PROGRESS_SCHEMA,
    generator: { name: 'nightledger', version },
    counted: counting,
    trains: progress.trains,
    targets: progress.targets.map((target) => ({
      target: target.name,
      otherNames: target.otherNames,
      ra: target.place?.raDeg ?? null,
      dec: target.place?.decDeg ?? null,
      seconds: tally(target.ms),
      frames: { ...target.frames },
      goalSeconds: seconds(target.goalMs),
      remainingSeconds: seconds(target.remainingMs),
      lines: target.lines.map(line),
      nights: target.nights.map((night) => ({
        night: night.date,
        seconds: tally(night.ms),
        report: linkTo(night.report),
      })),
    })),
    nights: progress.nights.map((night, i) => {
      const trend = itemAt(progress.trends, i);
      return {
        night: night.date,
        site: share ? null : (night.site?.name ?? null),
        headersOnly: night.headersOnly,
        darkSeconds: seconds(trend.darkMs),
        usedSeconds: seconds(trend.usedMs),
        keptSeconds: seconds(trend.keptMs),
        efficiency: trend.efficiency,
        twinGain: trend.twinGain,
        trains: trend.trains.map(({ train, guidingRmsArcsec, starSize, starFwhmArcsec, ditherWaitMs }) => ({
          train,
          guidingRms: guidingRmsArcsec,
          starSize,
          starFwhm: starFwhmArcsec ?? null,
          ditherWaitSeconds: seconds(ditherWaitMs),
        })),
      };
    }),
    months: progress.months.map(({ month, nights, darkMs, usedMs, keptMs }) => ({
      month,
      nights,
      darkSeconds: darkMs / 1000,
      usedSeconds: usedMs / 1000,
      keptSeconds: keptMs / 1000,
    })),
    outlook: outlook && outlookJson(outlook, share),
    warnings: progress.notices.map(({ code, message, count }) => ({ code, message, count })),
  };
}
