/**
 * Three log formats that no program writes: invented here so that dialects have something to describe.
 */
import { DateTime } from 'luxon';
import type { GuidingSample, SimulatedEvent } from './simulate.js';

/** Guide camera's scale in the invented guiding log, arcseconds per pixel. */
export const GUIDE_SCALE = 1.62;

const local = (atMs: number, zone: string, format: string): string =>
  DateTime.fromMillis(atMs, { zone }).toFormat(format);

/** The pilot's: one line an event, local time with date, columns by bars, words of its own. */
export function stationLog(events: readonly SimulatedEvent[], zone: string): string {
  const lines = events.flatMap((e): string[] => {
    const words = stationWords(e);
    return words === null ? [] : [`${local(e.atMs, zone, "dd.MM.yyyy HH:mm:ss','SSS")} | ${words}`];
  });
  return [`# station diary, clock of the hut (${zone})`, ...lines, ''].join('\r\n');
}

function stationWords(e: SimulatedEvent): string | null {
  switch (e.event) {
    case 'exposure-begin':
      return `shutter  | open, ${e.filter} for ${e.seconds} s on <${e.target}>`;
    case 'exposure-end':
      return 'shutter  | closed';
    case 'exposure-abort':
      return 'shutter  | closed early!';
    case 'frame-saved':
      return `disk     | kept as ${e.file}`;
    case 'dither-ready':
      return 'mount    | asked for a nudge, shutter closed';
    case 'dither-begin':
      return `mount    | nudge of ${String(e.pixels).replace('.', ',')} px`;
    case 'dither-end':
      return 'mount    | nudge over';
    case 'settling-begin':
      return 'guide    | calming';
    case 'settling-end':
      return 'guide    | calm';
    case 'focus-begin':
      return 'focus    | run starts';
    case 'focus-end':
      return `focus    | run over, stars ${String(e.sizeBefore).replace('.', ',')} -> ${String(e.sizeAfter).replace('.', ',')}, drawtube ${e.position}, ${String(e.temperature).replace('.', ',')} degC`;
    case 'filter-begin':
      return `wheel    | turning to ${e.to}`;
    case 'filter-end':
      return 'wheel    | there';
    case 'slew-begin':
      return 'mount    | travelling';
    case 'slew-end':
      return 'mount    | arrived';
    case 'centre-begin':
      return 'mount    | putting the target in the middle';
    case 'centre-end':
      return 'mount    | target in the middle';
    case 'flip-begin':
      return 'mount    | changing sides';
    case 'flip-end':
      return 'mount    | other side reached';
    case 'guiding-begin':
      return 'guide    | on';
    case 'guiding-end':
      return `guide    | off: ${e.why}`;
    case 'guiding-rest-begin':
      return 'guide    | resting for the focus run';
    case 'guiding-rest-end':
      return 'guide    | awake again';
    case 'star-gap-begin':
      return 'guide    | no star';
    case 'star-gap-end':
      return 'guide    | star is back';
    case 'hold-begin':
      return `weather  | stop: ${e.why}`;
    case 'hold-end':
      return 'weather  | go';
    default:
      return null;
  }
}

/** The dialect that reads `stationLog`. */
export const STATION_DIALECT = `# Invented: the diary of heron's station.
dialect: 1
name: station diary
decimal: ","
time: { pattern: "{day}.{month}.{year} {hour}:{minute}:{second} |", zone: site }
ignore: [ "^#" ]
lines:
  - { when: 'shutter +\\| open, (?<filter>\\S+) for (?<seconds>\\d+) s on <(?<target>[^>]*)>', event: exposure-begin }
  - { when: 'shutter +\\| closed early', event: exposure-abort }
  - { when: 'shutter +\\| closed', event: exposure-end }
  - { when: 'disk +\\| kept as (?<file>\\S+)', event: frame-saved }
  - { when: 'mount +\\| asked for a nudge', event: dither-ready }
  - { when: 'mount +\\| nudge of (?<pixels>[\\d,]+) px', event: dither-begin }
  - { when: 'mount +\\| nudge over', event: dither-end }
  - { when: 'guide +\\| calming', event: settling-begin }
  - { when: 'guide +\\| calm$', event: settling-end, fields: { ok: true } }
  - { when: 'focus +\\| run starts', event: focus-begin }
  - when: 'focus +\\| run over, stars (?<sizeBefore>[\\d,]+) -> (?<sizeAfter>[\\d,]+), drawtube (?<position>\\d+), (?<temperature>-?[\\d,]+) degC'
    event: focus-end
    fields: { ok: true }
  - { when: 'wheel +\\| turning to (?<to>\\S+)', event: filter-begin }
  - { when: 'wheel +\\| there', event: filter-end }
  - { when: 'mount +\\| travelling', event: slew-begin }
  - { when: 'mount +\\| arrived', event: slew-end }
  - { when: 'mount +\\| putting the target in the middle', event: centre-begin }
  - { when: 'mount +\\| target in the middle', event: centre-end }
  - { when: 'mount +\\| changing sides', event: flip-begin }
  - { when: 'mount +\\| other side reached', event: flip-end }
  - { when: 'guide +\\| on$', event: guiding-begin }
  - { when: 'guide +\\| off: (?<why>.*)', event: guiding-end }
  - { when: 'guide +\\| resting', event: guiding-rest-begin }
  - { when: 'guide +\\| awake again', event: guiding-rest-end }
  - { when: 'guide +\\| no star', event: star-gap-begin }
  - { when: 'guide +\\| star is back', event: star-gap-end }
  - { when: 'weather +\\| stop: (?<why>.*)', event: hold-begin }
  - { when: 'weather +\\| go', event: hold-end }
`;

/** The companion's: sentences, time of day only, a heading with the evening's date; frames told only when they are done. */
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

/** The guiding's: sections with a local base time, seconds from it, errors in pixels with a decimal comma. */
export function guidingSections(samples: readonly GuidingSample[], zone: string): string {
  const out: string[] = ['GUIDE TRACE', `one pixel is ${String(GUIDE_SCALE).replace('.', ',')} arcsec`, ''];
  let base = NaN;
  for (const sample of samples) {
    // A new section where the trace was broken off for more than a minute.
    if (!(sample.atMs - base < 3_600_000)) {
      base = sample.atMs;
      out.push(`trace opened ${local(base, zone, "yyyy-MM-dd HH'h'mm ss.SSS ZZ")}`);
    }
    const px = (arcsec: number) => (arcsec / GUIDE_SCALE).toFixed(3).replace('.', ',');
    out.push(
      `+${((sample.atMs - base) / 1000).toFixed(2).replace('.', ',')} s   east ${px(sample.ra)}   north ${px(sample.dec)}`,
    );
  }
  return [...out, ''].join('\n');
}

/** The dialect that reads `guidingSections`. */
export const GUIDING_DIALECT = `# Invented: a guide trace in sections, in pixels, with decimal commas.
dialect: 1
name: guide trace
decimal: ","
time: { pattern: "+{elapsed} s", zone: site }
constants:
  scale: { when: 'one pixel is (?<value>[\\d,]+) arcsec' }
sections:
  - { begin: 'trace opened (?<time>.+)', base: "{year}-{month}-{day} {hour}h{minute} {second} {offset}" }
ignore: [ '^GUIDE TRACE', '^one pixel' ]
guiding:
  when: 'east (?<e>-?[\\d,]+) +north (?<n>-?[\\d,]+)'
  ra: e * scale
  dec: n * scale
`;
