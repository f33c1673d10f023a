/** In which zone a log's times are: by the frames, by the Sun, by when the file was written. */
import { agreement, type FrameTimes } from './gather/dialects/reading.js';
import { aheadOfUtcMs, offsetName } from './gather/dialects/index.js';
import type { LogEvent, Site } from './model/index.js';
import { makeSkyObserver } from './sky/index.js';

const MINUTE_MS = 60_000;
/** The Sun's centre above this is daylight: nobody exposes lights then, degrees. */
const DAYLIGHT_DEG = -3;
/** Fraction and minimum number of exposures in daylight for a zone to be wrong; the right one has hardly any. */
const IN_DAYLIGHT = { share: 0.15, least: 2, rightly: 0.02 } as const;
/** Minimum fraction and number of frames matched to an exposure. */
const AGREEING = { share: 0.5, least: 3 } as const;
/** A file is written when its last line is, or this much later. */
const WRITTEN_MS = { before: 2 * MINUTE_MS, after: 20 * MINUTE_MS } as const;

/** A zone, and what speaks for it. */
export interface ProvedZone {
  /** `utc`, `site` or an offset such as `+02:00`. */
  readonly name: string;
  readonly by: 'frames' | 'darkness' | 'file-time';
}

/** What a log is compared with. */
export interface ZoneEvidence {
  readonly frames: readonly FrameTimes[];
  readonly site: Site | null;
  /** The site's zone, if known. */
  readonly siteZone: string | undefined;
  /** When the file was last modified, UTC ms, if known. */
  readonly writtenMs: number | undefined;
}

/**
 * The zone of a log's times, if different from the one they were read in; `null` without evidence. Frames take
 * precedence over the log's own statement; darkness and the file's modification time only count if it makes none.
 *
 * @param events as read in `assumed`: `site`, `utc` or an offset
 */
export function provedZone(events: readonly LogEvent[], assumed: string, evidence: ZoneEvidence): ProvedZone | null {
  const { siteZone } = evidence;
  const [first] = events;
  if (first === undefined) return null;
  const offsetMs = (name: string): number => aheadOfUtcMs(name === 'site' ? (siteZone ?? 'utc') : name, first.atMs);
  const byFrames = zoneOfFrames(events, evidence.frames, offsetMs(assumed));
  if (byFrames !== null)
    return {
      name: byFrames === 0 ? 'utc' : byFrames === offsetMs('site') ? 'site' : offsetName(byFrames),
      by: 'frames',
    };
  if (assumed !== 'site' || siteZone === undefined || offsetMs('site') === 0) return null;
  const later = offsetMs('site');
  const inDaylight = daylightOf(events, evidence.site);
  const asUtc = inDaylight(later);
  if (inDaylight(0) >= IN_DAYLIGHT.share && asUtc <= IN_DAYLIGHT.rightly) return { name: 'utc', by: 'darkness' };
  const lastMs = Math.max(...events.map(({ atMs }) => atMs));
  const { writtenMs } = evidence;
  const isWritten = (endMs: number): boolean =>
    writtenMs !== undefined && writtenMs > endMs - WRITTEN_MS.before && writtenMs < endMs + WRITTEN_MS.after;
  const isOfFile = isWritten(lastMs + later) && !isWritten(lastMs) && !(asUtc > IN_DAYLIGHT.rightly);
  return isOfFile ? { name: 'utc', by: 'file-time' } : null;
}

/**
 * The clock's offset from UTC according to the frames, ms; `null` if the log agrees with them or there is too little
 * evidence.
 */
function zoneOfFrames(events: readonly LogEvent[], frames: readonly FrameTimes[], assumedMs: number): number | null {
  const found = agreement(events, frames);
  if (found === null || found.zoneMinutes === 0) return null;
  const could = Math.min(found.exposures, found.frames);
  if (found.agreeing < Math.max(AGREEING.least, AGREEING.share * could)) return null;
  return assumedMs + found.zoneMinutes * MINUTE_MS;
}

/** The fraction of exposures that begin in daylight under a shift; NaN if no site is known, or too few exposures. */
function daylightOf(events: readonly LogEvent[], site: Site | null): (laterMs: number) => number {
  const begins = events.filter(({ event }) => event === 'exposure-begin');
  if (site === null || begins.length === 0) return () => NaN;
  const observer = makeSkyObserver(site);
  return (laterMs) => {
    const light = begins.filter(({ atMs }) => observer.at(atMs + laterMs).sun.altitudeDeg > DAYLIGHT_DEG).length;
    return light > 0 && light < IN_DAYLIGHT.least ? NaN : light / begins.length;
  };
}
