/** Reasons to doubt a checked log: its zone by the Sun, its years by the calendar, its times by the frames. */
import { agreement, agreementNote, type FrameTimes } from './gather/dialects/reading.js';
import { withKnownTrains } from './gather/known-trains.js';
import type { LogEvent, Site } from './model/index.js';
import { makeSkyObserver } from './sky/index.js';

/** The Sun's centre above this is daylight: nobody exposes lights then, degrees. */
const DAYLIGHT_DEG = -3;
const DAY_MS = 86_400_000;

/** How a log's exposures match the frames; empty if there is nothing to compare. */
export function agreementNotes(events: readonly LogEvent[], frames: readonly FrameTimes[]): string[] {
  const found = agreement(events, frames);
  return found === null ? [] : [agreementNote(found)];
}

/** Trains that the log names and the rig file above it does not have. */
export function trainNotes(events: readonly LogEvent[], trains: readonly string[]): string[] {
  return trains.length === 0 ? [] : withKnownTrains(events, trains).warnings.map(({ message }) => message);
}

/**
 * The draft with a line to fill in, if its log uses train names that are not in the rig file.
 *
 * @param yaml the draft
 * @param ids the rig file's trains
 */
export function withTrainNames(yaml: string, events: readonly LogEvent[], ids: readonly string[]): string {
  const named = [...new Set(events.flatMap(({ train }) => train ?? []))];
  const unknown = named.filter((name) => !ids.includes(name));
  const free = ids.filter((id) => !named.includes(id));
  const [first] = ids;
  if (unknown.length === 0 || first === undefined || unknown.length > MOST_NAMES) return yaml;
  const pairs = unknown.map((name, i) => `${JSON.stringify(name)}: ${free[i] ?? first}`);
  const lines = [
    `# The log names trains that the rig file calls by other names (${ids.join(', ')}). Say which is which:`,
    `# trains: { ${pairs.join(', ')} }`,
    '',
  ];
  // A function, since names may contain replacement patterns.
  return yaml.replace(/^lines:/m, (found) => `${lines.join('\n')}\n${found}`);
}

/** More names than these are no trains. */
const MOST_NAMES = 6;

/** Years in which no digital log was written, or that have not come yet. */
export function yearNotes(events: readonly LogEvent[], nowMs: number): string[] {
  const odd = events.filter(({ atMs }) => !(atMs > Date.UTC(2000, 0, 1) && atMs < nowMs + DAY_MS));
  const [first] = odd;
  return first === undefined
    ? []
    : [
        `${odd.length} events lie before the year 2000 or in the future (the first on line ` +
          `${first.source.line ?? '?'}): is the time pattern right?`,
      ];
}

/** Exposures in daylight: the zone of the dialect is likely wrong. */
export function daylightNotes(events: readonly LogEvent[], site: Site | null): string[] {
  const begins = events.filter((e) => e.event === 'exposure-begin');
  if (!site || begins.length === 0) return [];
  const observer = makeSkyObserver(site);
  const inDaylight = begins.filter((e) => observer.at(e.atMs).sun.altitudeDeg > DAYLIGHT_DEG);
  const first = inDaylight[0];
  return first
    ? [
        `${inDaylight.length} of ${begins.length} exposures begin in daylight at ${site.name} (the ` +
          `first on line ${first.source.line ?? '?'}): is the dialect's time zone right?`,
      ]
    : [];
}
