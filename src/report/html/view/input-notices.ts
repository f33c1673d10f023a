/**
 * What the first screen must say about the inputs: doubts that affect everything else on the page. The other warnings
 * are in the notes on the data.
 */
import { counted, groupBy, listed, warningsOf, type Night, type Warning } from '../../../model/index.js';
import { sentence } from '../../text/sentence.js';

/** Warnings that are quoted in full. */
const IN_FULL: readonly string[] = [
  'night-cut-by-pause',
  'night-cut-by-local-time',
  'night-cut-by-sky',
  'zone-contradicts-longitude',
  'log-far-from-frames',
  'local-time-suspected',
  'lights-in-daylight',
  'lights-below-horizon',
  'train-overlaps-itself',
  'trains-distinguished',
  'unlogged-train-joined',
  'train-without-frames',
  'camera-moved',
  'scale-contradicted',
  'short-dithers-unseen',
  'train-renamed',
  'header-local-time',
  'header-zone-doubtful',
  'milliseconds',
  'frames-not-found',
  'hidden-frames',
  'log-without-dialect',
  'undecided-date',
  'other-filter',
  'stars-bad-all-night',
  'few-stars',
  'user-rig',
  'unknown-train',
  'filters-apart',
  'filters-numbered',
  'targets-apart',
];

/** Fewer lines with impossible times, or without their other end, are slips. */
const FEWEST_LINES = 10;
/** More names than this are counted. */
const MOST_NAMES = 4;

/** The notices, most important first; none for a shared night, whose warnings have lost their details. */
export function inputNotices(night: Night): string[] {
  const warnings = warningsOf(night);
  const trains = night.gathered.trains.map(({ id }) => id);
  const full = warnings.filter((w) => IN_FULL.includes(w.code)).map((w) => sentence(w.message, trains));
  return [
    ...new Set([
      ...full,
      ...uncounted(warnings, night),
      ...cutOff(night),
      ...impossibleTimes(warnings),
      ...oneSided(warnings),
      ...unplacedTargets(night),
    ]),
  ];
}

/** A smaller fraction of the lights is only mentioned in the notes. */
const FEW_UNCOUNTED = 0.05;
const UNCOUNTED: ReadonlyMap<string, string> = new Map([
  ['missing-date', 'without a date'],
  ['frame-without-length', 'without an exposure time'],
  ['light-of-no-train', 'of no train'],
]);

/** Frames whose headers lack what counts them. */
function uncounted(warnings: readonly Warning[], { accounts }: Night): string[] {
  const groups = [...groupBy(warnings, (w) => UNCOUNTED.get(w.code))].flatMap(([why, own]) =>
    why === undefined ? [] : [{ why, count: own.reduce((sum, w) => sum + (w.count ?? 1), 0), first: own[0]?.source }],
  );
  const all = groups.reduce((sum, { count }) => sum + count, 0);
  if (all <= FEW_UNCOUNTED * accounts.lights.length) return [];
  const parts = groups.map(({ why, count, first }) => `${count} ${why}${first ? ` (${first.file})` : ''}`);
  return [`${counted(all, 'frame')} ${all === 1 ? 'is' : 'are'} not counted anywhere: ${listed(parts)}.`];
}

/** Lights whose pixels are missing: they are lost here, but complete ones may exist where they were copied from. */
function cutOff({ accounts }: Night): string[] {
  const files = accounts.lights.flatMap(({ header }) => (header?.isCutOff === true ? header.file : []));
  const [first] = files;
  if (first === undefined) return [];
  const [is, more, it] = files.length === 1 ? ['is', '', 'it is'] : ['are', ', …', 'they are'];
  return [
    `${counted(files.length, 'light')} ${is} truncated, with pixels missing (${first}${more}): ${it} ` +
      `lost here until copied again in full from the camera computer.`,
  ];
}

/** Why the time of a line was no use, by the code of its warning. */
const TIMES: ReadonlyMap<string, string> = new Map([
  ['absurd-time', 'their times are in impossible years'],
  ['unreadable-time', 'no time can be read from them'],
]);

/** Logs whose lines were omitted because of their times. */
function impossibleTimes(warnings: readonly Warning[]): string[] {
  const byFile = groupBy(
    warnings.filter((w) => TIMES.has(w.code)),
    (w) => JSON.stringify([w.source?.file, w.code]),
  );
  return [...byFile.values()].flatMap((own) => {
    const lines = own.reduce((sum, w) => sum + (w.count ?? 1), 0);
    const [first] = own;
    if (first === undefined || lines < FEWEST_LINES) return [];
    return [
      `${lines} lines of ${first.source?.file ?? 'a log'} were left out because ${TIMES.get(first.code)}: what they ` +
        'say is not in this report. Check the clock that wrote them, or the date pattern of the dialect.',
    ];
  });
}

/** Logs with begins that never end, or ends that never began: the rules of their dialect are probably wrong. */
function oneSided(warnings: readonly Warning[]): string[] {
  const byFile = groupBy(
    warnings.filter((w) => w.code === 'unclosed-activity' || w.code === 'unpaired-event'),
    (w) => w.source?.file,
  );
  return [...byFile].flatMap(([file = 'a log', own]) => {
    const lines = own.reduce((sum, w) => sum + (w.count ?? 1), 0);
    if (lines < FEWEST_LINES) return [];
    return [
      `${lines} lines of ${file} begin something that never ends, or end something that never began: verdicts and ` +
        'accounts rest on guesses there. Check whether its dialect mistakes beginnings for ends: nightledger ' +
        'dialect check lists them.',
    ];
  });
}

/** Targets without coordinates, with the lines to write. */
function unplacedTargets({ sky, timeline }: Night): string[] {
  const placed = new Set(timeline.targets.map((t) => t.name));
  const names = [
    ...new Set(
      timeline.frames.flatMap((f) =>
        f.kind === 'light' && f.target !== undefined && !placed.has(f.target) ? [f.target] : [],
      ),
    ),
  ];
  const [first] = names;
  // Without a site there is no altitude anyway, and that is stated.
  if (first === undefined || sky.almanac === null) return [];
  const which = names.length > MOST_NAMES ? counted(names.length, 'target') : listed(names);
  return [
    `Neither headers nor rig file give the coordinates of ${which}, so altitude, air mass and distance to the ` +
      `Moon are not known. Under targets: in the rig file write - { name: ${JSON.stringify(first)}, ra: ` +
      '"hh:mm:ss", dec: "+dd:mm:ss" } with its J2000 coordinates' +
      (names.length > 1 ? ', and likewise for the others' : '') +
      '.',
  ];
}
