import { layoutText } from './write-layout.js';
import { statesText } from './write-states.js';
import { basename } from 'node:path/posix';
import { swappedOrder } from '../time/swapped-order.js';
import { comment, quoted } from './yaml-text.js';
import type { DateSource, DraftReport } from './report.js';
import { sections } from './write-sections.js';
import { writeGuiding, writeRules, writeUnused } from './write-rules.js';

/** The starter dialect as YAML, with comments on the evidence for each part. */
export function writeDraft(report: DraftReport): string {
  return [
    ...head(report),
    ...(report.clockDoubts === undefined ? time(report) : timeLeftOut(report)),
    ...layoutText(report),
    ...statesText(report),
    ...jobs(report),
    ...(report.clockDoubts === undefined ? sections(report) : []),
    ...trainNames(report),
    ...writeGuiding(report),
    ...writeRules(report),
    ...writeUnused(report),
    '',
  ].join('\n');
}

function head(report: DraftReport): string[] {
  const seen = report.linesSeen < report.totalLines ? `, of which the first ${report.linesSeen} were looked at` : '';
  return [
    `# Draft of a dialect for ${comment(basename(report.file))}: ${report.totalLines} lines${seen}, ${report.encoding}, line ending ${report.lineEnding}.`,
    ...(report.clockDoubts === undefined
      ? []
      : [
          '# THE CLOCK OF THIS LOG IS NOT UNDERSTOOD, so its times are left out:',
          ...report.clockDoubts.map((doubt) => `#   ${comment(doubt)}.`),
        ]),
    ...(report.provedBy === undefined
      ? []
      : [
          `# Its times are proved by the frames of the session: ${report.provedBy.pairs} of the ${report.provedBy.possible} exposures that could begin when a frame does do so.`,
        ]),
    ...(report.signsOfWrong === undefined
      ? []
      : [
          '# THIS DRAFT IS PROBABLY WRONG AS A WHOLE:',
          ...report.signsOfWrong.map((sign) => `#   ${comment(sign)}.`),
          '# The rules that contradict themselves most are commented out. First check the times, and where ' +
            'exposures begin and end.',
        ]),
    ...(report.orderIsOpen
      ? ['# UNDECIDED: does the day or the month come first in its dates? Decide it below, under "time".']
      : []),
    ...(report.leftOut ?? []).map(
      ({ what, why }) => `# LOOK AT THIS: ${comment(what)} was left out, because it cannot be used: ${comment(why)}`,
    ),
    '# Every rule is a guess from words, values and neighbours. Read it through, then try it: nightledger dialect check LOG',
    '',
    'dialect: 1',
    `name: ${quoted(`draft for ${basename(report.file)}`)}`,
    ...(report.encoding === 'utf-8' ? [] : [`encoding: ${report.encoding}`]),
    ...(report.decimalComma ? ['decimal: ","'] : []),
    ...(report.doubled ? ['doubled: true   # every line appears twice in the log'] : []),
  ];
}

/** What determined the order of day and month. */
const ORDER = {
  night: ' Day and month are in the order that gives the night of the frames, of the head or of the name.',
  'file-time': ' LOOK AT THIS: day and month are in the order that gives the day on which the file was written.',
} as const;

/** The clock as a comment, in place of times that would be wrong. */
function timeLeftOut(report: DraftReport): string[] {
  return [
    '',
    '# Correct what is commented out here, and replace the two lines below with it.',
    ...[...time(report), ...sections(report)].flatMap((line) =>
      line === '' ? [] : [`#${line.startsWith('#') ? '' : ' '}${line}`],
    ),
    'time:',
    '  pattern: "{epoch}"',
  ];
}

function time(report: DraftReport): string[] {
  const { stamp } = report;
  if (stamp === null) {
    return [
      '',
      ...(report.isText
        ? []
        : ['# LOOK AT THIS: the file contains control characters, as no text does, so its lines were not used.']),
      '# No time was found in the lines. Say where it is, for example "{year}-{month}-{day} {hour}:{minute}:{second}".',
      'time:',
      '  pattern: "{epoch}"',
    ];
  }
  const isAbsolute = [stamp.pattern, ...(stamp.more ?? [])].every((pattern) =>
    /\{offset\}|\{epoch|\{julian|\{mjd\}(?!.*\{hour\})/.test(pattern),
  );
  return [
    '',
    `# The time pattern reads ${percent(stamp.coverage)} of the lines, and ${percent(stamp.forward)} of its steps go forward.${report.orderBy === null ? '' : ORDER[report.orderBy]}`,
    ...(report.doubtfulTimes
      ? [
          stamp.pattern.includes('{elapsed')
            ? '# LOOK AT THIS: they may as well be times of day; then write {hour}:{minute}:{second}, and no sections.'
            : '# LOOK AT THIS: they may as well count from the instant that the head states; then write {elapsed}, and sections.',
        ]
      : []),
    ...(report.orderIsOpen ? openOrder(report) : []),
    'time:',
    `  pattern: ${patternsText([stamp.pattern, ...(stamp.more ?? [])])}`,
    ...(stamp.since === 'previous'
      ? ['  since: previous     # they count from the line before: the lengths that lines state confirm it']
      : []),
    ...(stamp.wraps === undefined ? [] : [`  wraps: ${stamp.wraps}        # its counter starts again there`]),
    ...(stamp.evening === true
      ? ['  evening: true       # after midnight the times start again and the date stays']
      : []),
    ...(stamp.carry === true ? ['  carry: true         # rows without a time have that of the row above'] : []),
    ...(report.orderIsOpen ? ['  order: by-night'] : []),
    ...(stamp.at === 'start' ? [] : [`  at: ${stamp.at}`]),
    ...(report.ahead === undefined
      ? []
      : [`  ahead: ${report.ahead}           # LOOK AT THIS: ${AHEAD[report.clockBy ?? 'log']}`]),
    ...(isAbsolute ? [] : zone(report)),
    ...date(datesOf(report)),
    ...(report.caught === undefined
      ? []
      : [`  caught: ${patternsText(report.caught)}   # further times stated in the lines`]),
  ];
}

/** What says that a clock was wrong. */
const AHEAD = {
  log: 'the log says that its clock was this many seconds ahead',
  frames: "the session's frames say that on this night its clock was so many seconds ahead",
} as const;

/** If some lines have only the time of day, undated ones continue from the dated lines before them. */
function datesOf({ date: source, stamp }: DraftReport): DateSource {
  const lacksDay =
    stamp?.more?.some((pattern) => !/\{(?:day|week-date|serial-day|epoch|julian|mjd)/.test(pattern)) === true;
  return lacksDay && source.from === 'line' ? { from: 'session' } : source;
}

/** The question whether day or month comes first, and both ways to answer it. */
function openOrder({ stamp, date, sections: found }: DraftReport): string[] {
  const patterns = [
    stamp?.pattern ?? '',
    ...('pattern' in date ? [date.pattern] : []),
    ...found.flatMap((section) => ('base' in section ? [section.base] : [])),
  ];
  const open = patterns.find((pattern) => swappedOrder(pattern) !== null) ?? '';
  return [
    '# Whether day or month comes first is undetermined: no date has a day beyond the twelfth, and neither the name nor',
    '# the time of the file settles it. With "order: by-night" the night of the session decides, and where it does ' +
      'not, a',
    '# report leaves the log out. If you know, delete that line, and keep or change the pattern of the date:',
    `#   the day first:   ${quoted(dayFirst(open))}`,
    `#   the month first: ${quoted(swappedOrder(dayFirst(open)) ?? open)}`,
  ];
}

function dayFirst(pattern: string): string {
  return pattern.indexOf('{day}') < pattern.indexOf('{month}') ? pattern : (swappedOrder(pattern) ?? pattern);
}

function patternsText(patterns: readonly string[]): string {
  const [only = ''] = patterns;
  return patterns.length === 1 ? quoted(only) : `[${patterns.map(quoted).join(', ')}]`;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(0)} %`;
}

/** What determined the zone. */
const ZONE = {
  frames: 'with it, exposures begin when the frames do',
  darkness: 'LOOK AT THIS: by the clock of the site, exposures would begin in daylight',
  'file-time': 'LOOK AT THIS: with it, the log ends when the file was last written',
} as const;

function zone({ zone: name, zoneBy }: DraftReport): string[] {
  if (zoneBy !== null) return [`  zone: ${quoted(name)}        # ${ZONE[zoneBy]}`];
  return name === 'site'
    ? ["  zone: site          # the log prints no zone; the site's is assumed"]
    : [`  zone: ${quoted(name)}        # the log says so`];
}

function jobs({ jobs: found }: DraftReport): string[] {
  if (found === null) return [];
  return [
    '',
    `# Messages that name a job by its number have what it is about behind them.${found.isOrder ? ' The first only places an order.' : ''}`,
    'jobs:',
    `  begin: ${quoted(found.begin)}`,
    `  later: ${quoted(found.later)}`,
  ];
}

/** What its names of trains stand for. */
function trainNames({ trains }: DraftReport): string[] {
  const entries = Object.entries(trains).map(([name, id]) => `${quoted(name)}: ${quoted(id)}`);
  if (entries.length === 0) return [];
  return [
    '',
    '# Names in the log, and the trains that they stand for: ids of the rig file.',
    `trains: { ${entries.join(', ')} }`,
  ];
}

function date(source: DateSource): string[] {
  switch (source.from) {
    case 'line':
      return [];
    case 'session':
      return ["  date: session       # the lines print no date; it is the night's"];
    case 'file':
      return [
        `  date: { file: ${quoted(source.pattern)}, evening: true }   # from the file's name, taken to be the date ` +
          `of the evening`,
      ];
    case 'header':
      return [
        `  date:                # from line ${source.line}, taken to be the date of the ` +
          `${source.evening ? 'evening' : 'lines after it'}`,
        `    header: ${quoted(source.when)}`,
        `    pattern: ${quoted(source.pattern)}`,
        `    evening: ${source.evening}`,
        ...(source.year === undefined ? [] : [`    year: ${source.year}`]),
      ];
  }
}
