import { basename } from 'node:path/posix';
import type { DateSource, DraftReport, DraftRule, UnusedLines } from './report.js';

/** Kinds of unused line that the draft lists. */
const LISTED_UNUSED = 20;
const MAX_COMMENT = 110;

/** The starter dialect as YAML, with comments that say what each part rests on. */
export function writeDraft(report: DraftReport): string {
  return [
    ...head(report),
    ...time(report),
    ...(report.entries ? ['', '# Lines without a stamp belong to the stamped line above them.', 'entries: stamp'] : []),
    ...sections(report),
    ...rules(report.rules),
    ...unused(report.unused),
    '',
  ].join('\n');
}

function head(report: DraftReport): string[] {
  const seen = report.linesSeen < report.totalLines ? `, of which the first ${report.linesSeen} were looked at` : '';
  return [
    `# Draft of a dialect for ${comment(basename(report.file))}: ${report.totalLines} lines${seen}, ${report.encoding}, line ending ${report.lineEnding}.`,
    '# Every rule is a guess from the wording. Read it through, then try it: nightledger dialect check LOG',
    '',
    'dialect: 1',
    `name: ${quoted(`draft for ${basename(report.file)}`)}`,
    ...(report.encoding === 'utf-8' ? [] : [`encoding: ${report.encoding}`]),
    ...(report.decimalComma ? ['decimal: ","'] : []),
  ];
}

function time(report: DraftReport): string[] {
  const { stamp } = report;
  if (stamp === null) {
    return [
      '',
      '# No time was found in the lines. Say where it stands, for example "{year}-{month}-{day} {hour}:{minute}:{second}".',
      'time:',
      '  pattern: "{epoch}"',
    ];
  }
  const isAbsolute = /\{offset\}|\{epoch/.test(stamp.pattern);
  return [
    '',
    `# The time pattern reads ${(stamp.coverage * 100).toFixed(0)} % of the lines.${stamp.dayFirstAssumed ? ' Whether day or month comes first could not be told; day first was taken.' : ''}`,
    'time:',
    `  pattern: ${quoted(stamp.pattern)}`,
    ...(stamp.anywhere ? ['  at: anywhere'] : []),
    ...(isAbsolute
      ? []
      : report.zone === 'utc'
        ? ['  zone: utc           # the beginning of the log says so']
        : ["  zone: site          # no zone is printed; the times are taken for the site's"]),
    ...date(report.date),
  ];
}

function sections({ stamp, section }: DraftReport): string[] {
  if (section !== undefined) {
    return [
      '',
      '# Relative times count from the time that this line states.',
      'sections:',
      `  - begin: ${quoted(section.begin)}`,
      `    base: ${quoted(section.base)}`,
    ];
  }
  if (stamp === null || !stamp.pattern.includes('{elapsed}')) return [];
  return [
    '',
    '# The times are relative, and no line was found that says to what. Catch its time in a group (?<time>…).',
    'sections:',
    "  - begin: 'replace this by what the line with the base time says'",
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
        `  date: { file: ${quoted(source.pattern)}, evening: true }   # from the file's name, taken for the date of the evening`,
      ];
    case 'header':
      return [
        `  date:                # from line ${source.line}, taken for the date of the evening`,
        `    header: ${quoted(source.when)}`,
        `    pattern: ${quoted(source.pattern)}`,
        '    evening: true',
      ];
  }
}

function rules(list: readonly DraftRule[]): string[] {
  if (list.length === 0) {
    return [
      '',
      '# No wording of the trade was recognised. Turn the lines below into rules.',
      'lines:',
      "  - when: 'replace this by what a line says'",
      '    event: note',
    ];
  }
  return [
    '',
    'lines:',
    ...list.flatMap((rule) => [
      `  # ${rule.count} line${rule.count === 1 ? '' : 's'}, first ${rule.firstLine}: ${comment(rule.example)}`,
      `  - when: ${quoted(rule.when)}`,
      `    event: ${rule.event}`,
      ...(rule.lasted === undefined ? [] : [`    lasted: ${rule.lasted}`]),
      ...(rule.lasts === undefined ? [] : [`    lasts: ${rule.lasts}`]),
    ]),
  ];
}

function unused(list: readonly UnusedLines[]): string[] {
  if (list.length === 0) return [];
  return [
    '',
    '# Nothing is made of these lines. Make rules of those that matter, and ignore the others on purpose:',
    '# ignore:',
    ...list
      .slice(0, LISTED_UNUSED)
      .flatMap((lines) => [
        `#   # ${lines.count} line${lines.count === 1 ? '' : 's'}, first ${lines.firstLine}: ${comment(lines.template)}`,
        `#   - ${quoted(lines.pattern)}`,
      ]),
    ...(list.length > LISTED_UNUSED ? [`# … and ${list.length - LISTED_UNUSED} rarer kinds.`] : []),
  ];
}

/** A single-quoted YAML scalar. */
function quoted(text: string): string {
  return `'${text.replace(/\p{Cc}/gu, ' ').replaceAll("'", "''")}'`;
}

/** A text that can stand in a comment: one line, no control characters, not too long. */
function comment(text: string): string {
  const line = text.replace(/\s*\n\s*/g, ' / ').replace(/[\p{Cc}\p{Cs}\u2028\u2029\ufeff]/gu, ' ');
  return line.length <= MAX_COMMENT ? line : `${line.slice(0, MAX_COMMENT - 1).replace(/[\ud800-\udbff]$/, '')}…`;
}
