/**
 * Progress and outlook to be shared. Hours of darkness and of moonless darkness tell the site, exact ones to the
 * street:
 * they are told in whole hours, what the trains did with them in steps of ten minutes, and nothing names a site or a
 * file.
 */
import { interval, type NightHours, type NightSummary, type Outlook, type Progress } from '../model/index.js';

const HOUR_MS = 3_600_000;
const ACCOUNT_STEP_MS = 10 * 60_000;

const toStep = (value: number, step: number): number => Math.round(value / step) * step;
const hour = (hours: number): number => Math.round(hours);

/** Progress without what tells the site. */
export function shareProgress(progress: Progress): Progress {
  return {
    ...progress,
    nights: progress.nights.map(sharedNight),
    notices: progress.notices.map(({ code, count }) => ({
      code,
      message: 'the details are left out of the shared edition',
      count,
    })),
  };
}

function sharedNight(night: NightSummary): NightSummary {
  const startMs = Date.parse(`${night.date}T00:00:00Z`);
  const hours = toStep(night.window.endMs - night.window.startMs, HOUR_MS);
  const used = night.used && toStep(night.used.endMs - night.used.startMs, ACCOUNT_STEP_MS);
  return {
    ...night,
    file: '',
    site: null,
    window: interval(startMs, startMs + hours),
    used: used === null ? null : interval(startMs, startMs + used),
    trains: night.trains.map((train) => ({
      ...train,
      accountsMs: Object.fromEntries(
        Object.entries(train.accountsMs).map(([account, ms]) => [account, toStep(ms ?? 0, ACCOUNT_STEP_MS)]),
      ),
    })),
    report: null,
  };
}

/** An outlook without what tells the site. */
export function shareOutlook(outlook: Outlook): Outlook {
  const { keptPerDarkHour, ...pace } = outlook.pace;
  const tenth = (value: number): number => Math.round(value * 10) / 10;
  return {
    ...outlook,
    site: null,
    pace: {
      ...pace,
      keptPerDarkHour: keptPerDarkHour && {
        low: tenth(keptPerDarkHour.low),
        middle: tenth(keptPerDarkHour.middle),
        high: tenth(keptPerDarkHour.high),
      },
    },
    targets: outlook.targets.map((target) => ({
      ...target,
      season:
        target.season.state === 'never'
          ? { ...target.season, bestHours: hour(target.season.bestHours) }
          : target.season,
      nights: target.nights.map(
        (night): NightHours => ({
          date: night.date,
          dark: hour(night.dark),
          up: hour(night.up),
          moonless: hour(night.moonless),
          farMoon: hour(night.farMoon),
        }),
      ),
      months: target.months.map(({ month, up, moonless, farMoon }) => ({
        month,
        up: hour(up),
        moonless: hour(moonless),
        farMoon: hour(farMoon),
      })),
    })),
    next: outlook.next.map((night) => ({
      ...night,
      darkHours: hour(night.darkHours),
      moonIllumination: Math.round(night.moonIllumination * 10) / 10,
      moonlessHours: hour(night.moonlessHours),
      withoutMoon: night.withoutMoon && { ...night.withoutMoon, hours: hour(night.withoutMoon.hours) },
      underMoon: night.underMoon && { ...night.underMoon, hours: hour(night.underMoon.hours) },
    })),
  };
}
