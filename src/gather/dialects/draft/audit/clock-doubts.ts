import { median } from '../../../../model/index.js';
import type { DraftReport } from '../report.js';
import type { LogSample } from '../sample.js';
import type { StampGuess } from '../time/guess.js';
import { RoughClock } from '../time/rough-clock.js';
import { saysSidereal } from '../time/sidereal.js';
import { exposuresIn } from './drafted-exposures.js';
import { named, type DraftedNight } from './drafted-night.js';
import { ofTwoTrains } from './of-two-trains.js';

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

/**
 * What shows that the clock of a log is not understood, whatever pattern reads it: wrong times are worse than none.
 *
 * @returns clauses in the present tense; empty if nothing does
 */
export function clockDoubts(sample: LogSample, report: DraftReport, night: DraftedNight | null): readonly string[] {
  const { stamp } = report;
  if (stamp === null) return [];
  return [
    ...(isSidereal(sample, stamp) ? ['the log says that its times are sidereal'] : []),
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
    `taken for the site's, it lets ${lit.length} of ${begun.length} exposures begin between 9:30 and 15:30: it is that of another zone`,
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
  return [`by its unit, exposures of ${seconds} s are over after ${took.toFixed(1)} s`];
}
