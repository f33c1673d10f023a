/**
 * Three log formats that no program writes: invented here so that dialects have something to describe.
 */
import { DateTime } from 'luxon';
import type { GuidingSample, SimulatedEvent } from './simulation.js';

const local = (atMs: number, zone: string, format: string): string =>
  DateTime.fromMillis(atMs, { zone }).toFormat(format);

/** The pilot's: one line an event, what happened first and the local time with its date behind it. */
export function stationLog(events: readonly SimulatedEvent[], zone: string): string {
  const lines = events.flatMap((e): string[] => {
    const words = stationWords(e);
    return words === null ? [] : [`${words} (${local(e.atMs, zone, "d/M/yyyy 'at' HH'h'mm'm'ss','SSS")})`];
  });
  return [`# station diary, clock of the hut (${zone})`, ...lines, ''].join('\r\n');
}

function stationWords(e: SimulatedEvent): string | null {
  switch (e.event) {
    case 'exposure-begin':
      return `the shutter: open, ${e.filter} for ${e.seconds} s on <${e.target}>`;
    case 'exposure-end':
      return 'the shutter: closed';
    case 'exposure-abort':
      return 'the shutter: closed early!';
    case 'frame-saved':
      return `the disk: kept as ${e.file}`;
    case 'dither-ready':
      return 'the mount: asked for a nudge, shutter closed';
    case 'dither-begin':
      return `the mount: nudge of ${String(e.pixels).replace('.', ',')} px`;
    case 'dither-end':
      return 'the mount: nudge over';
    case 'settling-begin':
      return 'the guide: calming';
    case 'settling-end':
      return 'the guide: calm';
    case 'focus-begin':
      return 'the focus: run starts';
    case 'focus-end':
      return `the focus: run over, stars ${String(e.sizeBefore).replace('.', ',')} -> ${String(e.sizeAfter).replace('.', ',')}, drawtube ${e.position}, ${String(e.temperature).replace('.', ',')} degC`;
    case 'filter-begin':
      return `the wheel: turning to ${e.to}`;
    case 'filter-end':
      return 'the wheel: there';
    case 'slew-begin':
      return 'the mount: travelling';
    case 'slew-end':
      return 'the mount: arrived';
    case 'centre-begin':
      return 'the mount: putting the target in the middle';
    case 'centre-end':
      return 'the mount: target in the middle';
    case 'flip-begin':
      return 'the mount: changing sides';
    case 'flip-end':
      return 'the mount: other side reached';
    case 'guiding-begin':
      return 'the guide: on';
    case 'guiding-end':
      return `the guide: off: ${e.why}`;
    case 'guiding-rest-begin':
      return 'the guide: resting for the focus run';
    case 'guiding-rest-end':
      return 'the guide: awake again';
    case 'star-gap-begin':
      return 'the guide: no star';
    case 'star-gap-end':
      return 'the guide: star is back';
    case 'hold-begin':
      return `the weather: stop: ${e.why}`;
    case 'hold-end':
      return 'the weather: go';
    default:
      return null;
  }
}

/** The dialect that reads `stationLog`. */
export const STATION_DIALECT = `# Invented: the diary of heron's station.
dialect: 1
name: station diary
decimal: ","
time: { pattern: "({day}/{month}/{year} at {hour}h{minute}m{second})", at: anywhere, zone: site }
ignore: [ "^#" ]
lines:
  - { when: 'the shutter: open, (?<filter>\\S+) for (?<seconds>\\d+) s on <(?<target>[^>]*)>', event: exposure-begin }
  - { when: 'the shutter: closed early', event: exposure-abort }
  - { when: 'the shutter: closed', event: exposure-end }
  - { when: 'the disk: kept as (?<file>\\S+)', event: frame-saved }
  - { when: 'the mount: asked for a nudge', event: dither-ready }
  - { when: 'the mount: nudge of (?<pixels>[\\d,]+) px', event: dither-begin }
  - { when: 'the mount: nudge over', event: dither-end }
  - { when: 'the guide: calming', event: settling-begin }
  - { when: 'the guide: calm\\b', event: settling-end, fields: { ok: true } }
  - { when: 'the focus: run starts', event: focus-begin }
  - when: 'the focus: run over, stars (?<sizeBefore>[\\d,]+) -> (?<sizeAfter>[\\d,]+), drawtube (?<position>\\d+), (?<temperature>-?[\\d,]+) degC'
    event: focus-end
    fields: { ok: true }
  - { when: 'the wheel: turning to (?<to>\\S+)', event: filter-begin }
  - { when: 'the wheel: there', event: filter-end }
  - { when: 'the mount: travelling', event: slew-begin }
  - { when: 'the mount: arrived', event: slew-end }
  - { when: 'the mount: putting the target in the middle', event: centre-begin }
  - { when: 'the mount: target in the middle', event: centre-end }
  - { when: 'the mount: changing sides', event: flip-begin }
  - { when: 'the mount: other side reached', event: flip-end }
  - { when: 'the guide: on\\b', event: guiding-begin }
  - { when: 'the guide: off: (?<why>[^(]+?) *(\\(|$)', event: guiding-end }
  - { when: 'the guide: resting', event: guiding-rest-begin }
  - { when: 'the guide: awake again', event: guiding-rest-end }
  - { when: 'the guide: no star', event: star-gap-begin }
  - { when: 'the guide: star is back', event: star-gap-end }
  - { when: 'the weather: stop: (?<why>[^(]+?) *(\\(|$)', event: hold-begin }
  - { when: 'the weather: go', event: hold-end }
`;

/** The companion's: sentences, time of day only, a heading with the evening's date; frames logged only at their end. */
export function sentenceLog(
  events: readonly SimulatedEvent[],
  shared: readonly SimulatedEvent[],
  zone: string,
): string {
  const all = [...events, ...shared.filter((e) => e.event === 'dither-begin' || e.event === 'dither-end')].sort(
    (a, b) => a.atMs - b.atMs,
  );
  let open: SimulatedEvent | undefined;
  const lines = all.flatMap((e): string[] => {
    if (e.event === 'exposure-begin') open = e;
    const sentence = sentenceOf(e, open);
    return sentence === null ? [] : [`${local(e.atMs, zone, 'HH:mm:ss.SSS')} ${sentence}`];
  });
  const first = all[0];
  // The heading bears the evening's date, even when the watch begins after midnight.
  const evening = first ? DateTime.fromMillis(first.atMs, { zone }).minus({ hours: 12 }).toFormat('d MMMM yyyy') : '';
  return [`Night watch of ${evening}, kept by the second hut.`, ...lines, ''].join('\n');
}

function sentenceOf(e: SimulatedEvent, open: SimulatedEvent | undefined): string | null {
  const lasted = open ? ((e.atMs - open.atMs) / 1000).toFixed(3) : '0';
  switch (e.event) {
    case 'exposure-end':
      return `I looked at ${open?.target} through ${open?.filter} for ${lasted} seconds.`;
    case 'exposure-abort':
      return `I had to stop looking at ${open?.target} through ${open?.filter} after ${lasted} of ${open?.seconds} seconds.`;
    case 'frame-saved':
      return `The picture now lies in ${e.file}.`;
    case 'dither-ready':
      return 'I am done and stand by for the other hut.';
    case 'dither-begin':
      return 'The mount stirs.';
    case 'dither-end':
      return 'The mount rests.';
    case 'focus-begin':
      return 'I begin to sharpen my view.';
    case 'focus-end':
      return `My view is sharp: stars shrank from ${e.sizeBefore} to ${e.sizeAfter}, drawtube at ${e.position}, air at ${e.temperature} degrees.`;
    case 'filter-begin':
      return `I reach for the ${e.to} glass.`;
    case 'filter-end':
      return 'The glass is in place.';
    default:
      return null;
  }
}

/** The dialect that reads `sentenceLog`. */
export const SENTENCE_DIALECT = `# Invented: the night watch of wren's hut. It tells of a frame only when it is done.
dialect: 1
name: night watch
time:
  pattern: "{hour}:{minute}:{second}"
  zone: site
  date: { header: 'Night watch of (?<date>.+), kept by', pattern: "{day} {month-name} {year}", evening: true }
lines:
  - { when: 'I looked at (?<target>.+) through (?<filter>\\S+) for (?<seconds>[\\d.]+) seconds', event: exposure-end, lasted: seconds }
  - when: 'I had to stop looking at (?<target>.+) through (?<filter>\\S+) after (?<done>[\\d.]+) of (?<seconds>[\\d.]+) seconds'
    event: exposure-abort
    lasted: done
  - { when: 'The picture now lies in (?<file>\\S+)\\.$', event: frame-saved }
  - { when: 'I am done and stand by', event: dither-ready }
  - { when: 'The mount stirs', event: dither-begin }
  - { when: 'The mount rests', event: dither-end }
  - { when: 'I begin to sharpen my view', event: focus-begin }
  - when: 'stars shrank from (?<sizeBefore>[\\d.]+) to (?<sizeAfter>[\\d.]+), drawtube at (?<position>\\d+), air at (?<temperature>-?[\\d.]+) degrees'
    event: focus-end
    fields: { ok: true }
  - { when: 'I reach for the (?<to>\\S+) glass', event: filter-begin }
  - { when: 'The glass is in place', event: filter-end }
`;

/** The guiding's: a table of milliarcseconds by semicolons, Dec before RA, both signed the other way, epoch seconds last. */
export function guidingTable(samples: readonly GuidingSample[]): string {
  const mas = (arcsec: number) => (-1000 * arcsec).toFixed(0);
  const rows = samples.map((s) => `${mas(s.dec)};${mas(s.ra)};${(s.atMs / 1000).toFixed(2).replace('.', ',')}`);
  return ['Where the star went, thousandths of an arcsecond', 'south;west;at', ...rows, ''].join('\n');
}

/** The dialect that reads `guidingTable`. */
export const GUIDING_DIALECT = `# Invented: where the guide star went, in thousandths of an arcsecond, southward and westward.
dialect: 1
name: star walk
decimal: ","
time: { pattern: "{epoch}", zone: utc }
csv: { delimiter: ";", header: [ south, west, at ], time: at }
ignore: [ '^Where the star went' ]
guiding:
  ra: -west / 1000
  dec: -south / 1000
`;
