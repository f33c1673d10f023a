import type { DraftReport, EntriesDraft, TableDraft } from './report.js';
import { escaped } from './escaped.js';
import { quoted } from './yaml-text.js';

/** How the lines, rows or records of a draft are split, as YAML. */
export function layoutText(report: DraftReport): string[] {
  const rows = report.isSheet
    ? ['', '# A sheet kept by hand: its tables are read as plain ones, with cells separated by tabs.', 'entries: sheet']
    : report.isRows
      ? ['', '# Each row of its tables is a line, with cells separated by tabs.', 'entries: rows']
      : [];
  return [...rows, ...layoutOf(report)];
}

function layoutOf(report: DraftReport): string[] {
  const { layout: found, entries } = report;
  if (found === null)
    return report.objects > 0 ? ['', `entries: { objects: ${report.objects} }`] : textEntries(entries);
  if (found.kind === 'tables') return tables(found.tables);
  const timeText = timesText(found);
  if (found.kind === 'records')
    return [
      '',
      ...(report.document !== null
        ? [
            '# Every element or object of the document that has a time is a record; rules name its fields by their paths.',
            'entries: document',
          ]
        : report.objects > 0
          ? [
              '# The objects of a document are read as a line each; rules name their fields by their paths.',
              `entries: { objects: ${report.objects} }`,
            ]
          : found.start === null
            ? ['# Each line is a record; rules name its fields by their paths.']
            : [
                '# A record may have several lines; rules name its fields by their paths.',
                `entries: ${found.start === 'stamp' ? 'stamp' : `{ start: ${quoted(found.start)} }`}`,
              ]),
      'records:',
      `  as: ${found.form}`,
      ...(found.time.length > 0 ? [`  time: ${timeText}`] : []),
      ...(found.join === null
        ? []
        : [
            `  join: ${quoted(found.join)}   # records have what the first with the same number says; that one makes no event of its own`,
          ]),
    ];
  return [
    '',
    'csv:',
    `  delimiter: ${found.delimiter === '\t' ? 'tab' : quoted(found.delimiter)}`,
    ...(found.starts === undefined ? [] : [`  starts: [${found.starts.join(', ')}]`]),
    `  ${found.headerIndex < 0 || found.starts !== undefined ? 'columns' : 'header'}: [${namesIn(found)}]`,
    ...eachOf(found).map((text) => `  ${text}`),
    `  time: ${timeText}`,
  ];
}

function eachOf({ each = [], between = null }: Pick<TableDraft, 'each' | 'between'>): string[] {
  if (each.length === 0) return [];
  return [
    `each: [${each.map(quoted).join(', ')}]   # each cell is a row of its own`,
    ...(between === null ? [] : [`between: ${quoted(between)}   # and so is each message in it`]),
  ];
}

/** The names of a table's columns; if there are bars at both ends of its rows, nothing is outside them. */
function namesIn({ columns }: Pick<TableDraft, 'columns'>): string {
  return columns.flatMap((name) => (name === '' ? [] : quoted(name))).join(', ');
}

function timesText({ time: paths, timeIsFirst }: Pick<TableDraft, 'time' | 'timeIsFirst'>): string {
  const times = paths.map(quoted);
  const all = times.length === 1 ? (times[0] ?? '') : `[${times.join(', ')}]`;
  return timeIsFirst ? `{ first: [${times.join(', ')}] }` : all;
}

function tables(found: readonly TableDraft[]): string[] {
  return [
    '',
    found.some(({ only }) => only !== undefined)
      ? '# Rows of several types take turns; a rule applies to the types that have its columns.'
      : '# Several tables, each below a header row of its own; a rule applies to those that have its columns.',
    'csv:',
    ...found.flatMap((table) => [
      `  - name: ${quoted(table.name)}`,
      `    delimiter: ${table.delimiter === '\t' ? 'tab' : quoted(table.delimiter)}`,
      ...(table.only === undefined ? [] : [`    rows: ${quoted(table.only)}`]),
      `    ${table.only === undefined ? 'header' : 'columns'}: [${namesIn(table)}]`,
      ...(table.below === null ? [] : [`    below: ${quoted(`^\\s*${escaped(table.below)}\\s*$`)}`]),
      ...eachOf(table).map((text) => `    ${text}`),
      `    time: ${timesText(table)}`,
    ]),
  ];
}

function textEntries(entries: EntriesDraft): string[] {
  if (entries === null) return [];
  if (entries === 'stamp')
    return ['', '# Lines without a stamp belong to the stamped line above them.', 'entries: stamp'];
  if (entries === 'stamps') return ['', '# Each stamp in a line begins a separate message.', 'entries: stamps'];
  return [
    '',
    '# A message continues until a line with this beginning.',
    `entries: { start: ${quoted(entries.start)} }`,
  ];
}
