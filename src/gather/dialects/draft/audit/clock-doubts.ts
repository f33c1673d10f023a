import { median } from '../../../../model/index.js';
import { agreement, type FrameTimes } from '../../check/agreement.js';
import type { DraftReport } from '../report.js';
import type { LogSample } from '../sample.js';
import type { StampGuess } from '../time/guess.js';
import { errorSetRight } from '../time/composed/clock-error.js';
import { RoughClock } from '../time/rough-clock.js';
import { saysSidereal } from '../time/sidereal.js';
import { exposuresIn } from './drafted-exposures.js';
import { named, type DraftedNight } from './drafted-night.js';
import { ofTwoTrains } from './of-two-trains.js';
import { unreadDates } from './unread-dates.js';

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
/** Nobody exposes the sky between these local times, anywhere. */
const DAYLIGHT = { fromMs: 9.5 * HOUR_MS, toMs: 15.5 * HOUR_MS } as const;
/** Minimum number of exposures that say something about the clock, and the fraction of them that must. */
const MIN_EXPOSURES = 8;
const MOST = 0.5;
/** An exposure is never over before this fraction of its stated length, unless it is cut short. */
const HALF = 0.5;
const HEAD_LINES = 30;
/** A clock is set a few times a night, below the first lines of the log; less of an error changes nothing. */
const FEW_SETTINGS = 3;
const HEAD_EVENTS = 5;
const LEAST_ERROR_S = 2;

/**
 * What shows that the clock of a log is not understood, whatever pattern reads it: wrong times are worse than none.
 *
 * @param frames those of the session, if known: if exposures begin as they do, the night's date is the log's
 * @returns clauses in the present tense; empty if nothing does
 */
export function clockDoubts(
  sample: LogSample,
  report: DraftReport,
  night: DraftedNight | null,
  frames: readonly FrameTimes[] = [],
): readonly string[] {
  const { stamp } = report;
  if (stamp === null) return [];
  return [
    ...(isSidereal(sample, stamp) ? ['the log says that its times are sidereal'] : []),
    ...(night !== null && agreesByDay(night, frames) ? [] : unreadDates(sample, report)),
    ...setRight(sample, stamp),
    ...(night === null ? [] : inDaylight(report, night)),
    ...(night === null ? [] : tooShort(stamp.pattern, night)),
  ];
}

/** Whether the head calls the times sidereal, in a log that states no date beside them. */
function isSidereal({ lines }: LogSample, { pattern, at }: StampGuess): boolean {
  if (!/^[^{]*\{hour\}/.test(pattern) || /\{day|\{offset\}/.test(pattern)) return false;
  const clock = new RoughClock(pattern, at);
  return lines.slice(0, HEAD_LINES).some((text) => saysSidereal(text) && clock.read(text) === null);
}

/** Whether most exposures begin as frames do, on whatever night. */
function agreesByDay({ drafted }: DraftedNight, frames: readonly FrameTimes[]): boolean {
  const [begun, frame] = [named(drafted, 'exposure-begin')[0], frames[0]];
  if (begun === undefined || frame === undefined) return false;
  const awayMs = Math.round((frame.beginMs - begun.event.atMs) / DAY_MS) * DAY_MS;
  const events = drafted.map(({ event }) => ({ ...event, atMs: event.atMs + awayMs }));
  const agreed = agreement(events, frames);
  return agreed !== null && agreed.agreeing >= MOST * Math.min(agreed.exposures, frames.length);
}

/** A line amid the log that says how wrong the clock was until then: the times above it are wrong by as much. */
function setRight({ lines }: LogSample, stamp: StampGuess): string[] {
  const said = lines.flatMap((text, index) => {
    const error = errorSetRight([text]);
    return error === null ? [] : [{ index, seconds: Math.abs(error.seconds) }];
  });
  const [first] = said;
  if (first === undefined || said.length > FEW_SETTINGS || first.seconds < LEAST_ERROR_S) return [];
  const clock = RoughClock.of(stamp);
  const isAmid = lines.slice(0, first.index).filter((text) => clock.read(text) !== null).length > HEAD_EVENTS;
  return isAmid ? [`line ${first.index + 1} says that the clock was wrong by ${first.seconds} s until then`] : [];
}

/** The exposures that begin in daylight by the clock of any site. */
function inDaylight({ zone, zoneBy }: DraftReport, { drafted }: DraftedNight): string[] {
  if (zone !== 'site' || zoneBy !== null) return [];
  const begun = named(drafted, 'exposure-begin');
  const lit = begun.filter(({ event: { atMs } }) => {
    const ofDay = ((atMs % DAY_MS) + DAY_MS) % DAY_MS;
    return ofDay > DAYLIGHT.fromMs && ofDay < DAYLIGHT.toMs;
  });
  if (lit.length < MIN_EXPOSURES || lit.length < MOST * begun.length) return [];
  return [
    `taken for the site's, it makes ${lit.length} of ${begun.length} exposures begin between 9:30 and 15:30: it is ` +
      `that of another zone`,
  ];
}

/** The exposures that a counter lets end long before their stated length: it counts in another unit. */
function tooShort(pattern: string, { drafted }: DraftedNight): string[] {
  if (!pattern.includes('{elapsed')) return [];
  const stated = exposuresIn(ofTwoTrains(drafted)).filter(({ seconds, isGivenUp }) => seconds > 0 && !isGivenUp);
  const tookOf = ({ startMs, endMs }: (typeof stated)[number]): number => (endMs - startMs) / 1000;
  const short = stated.filter((one) => tookOf(one) < HALF * one.seconds);
  if (short.length < MIN_EXPOSURES || short.length < MOST * stated.length) return [];
  const [seconds, took] = [median(short.map((one) => one.seconds)), median(short.map(tookOf))];
  return [`by its unit, exposures of ${seconds} s would be over after ${took.toFixed(1)} s`];
}
