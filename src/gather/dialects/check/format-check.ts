import { counted, partition, saidBy, type EventName, type GuidingSeries, type LogEvent } from '../../../model/index.js';
import { UNDECIDED_DATE } from '../undecided-date.js';
import type { CheckReport, RuleUse } from './check.js';
import { guidingCheck, guidingDoubts } from './guiding-check.js';
import type { TableUse } from './table-uses.js';
import { timelineRows } from './timeline.js';

const LISTED_EVENTS = 5;
const LISTED_CONTRADICTIONS = 20;
const MAX_WIDTH = 110;
/** Narrower than this, a line of an event is written without columns of its own: it is broken like prose. */
const TABLE_WIDTH = 80;

/**
 * The report of a check as text for a terminal. Times are UTC.
 *
 * @param notes sentences to add, such as events that fall into daylight
 * @param columns the terminal's width; absent where the text goes elsewhere
 */
export function formatCheck(report: CheckReport, notes: readonly string[] = [], columns = Infinity): string {
  const [undecided, others] = partition(report.read.warnings, ({ code }) => code === UNDECIDED_DATE);
  const sections = [
    // First, because the alternative reading changes every instant below.
    undecided.map(({ message }) => message),
    coverage(report),
    tables(report),
    rules(report),
    unmatched(report),
    events(report, columns),
    timeline(report, columns),
    contradictions(report),
    list(
      'Warnings',
      others.map((warning) => warning.message),
    ),
    list('Notes', notes),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function coverage({ file, dialect, lines, read }: CheckReport): string[] {
  const row = (label: string, count: number): string =>
    `  ${label.padEnd(22)}${String(count).padStart(8)}  ${percent(count, lines.all)}`;
  return [
    `${file}, read by the dialect "${dialect}"`,
    row('gave events', lines.events),
    ...(lines.sample > 0 ? [row('gave guiding samples', lines.sample)] : []),
    ...(lines.context > 0 ? [row('date, header, section', lines.context)] : []),
    row('ignored on purpose', lines.ignored),
    ...(lines.unusable > 0 ? [row('matched, not usable', lines.unusable)] : []),
    row('unmatched', lines.unmatched),
    `  ${'lines in all'.padEnd(22)}${String(lines.all).padStart(8)}`,
    ...(read.guiding === undefined ? [] : [...guidingLines(read.guiding)]),
  ];
}

function guidingLines(series: GuidingSeries): string[] {
  const check = guidingCheck(series);
  if (check === null) return [];
  return [
    `  ${check.samples} guiding samples, ${time(check.startMs)} to ${time(check.endMs)}`,
    `  guiding ${check.rmsArcsec.toFixed(2)}″ RMS, a sample every ${check.cadenceSeconds.toFixed(1)} s`,
    ...guidingDoubts(check).map((doubt) => `  ${doubt}`),
  ];
}

function tables({ tables: uses }: CheckReport): string[] {
  if (uses.length === 0) return [];
  const shown = ({ name, firstLine, rows, used, unmatched: left }: TableUse): string =>
    firstLine === null
      ? `  ${cut(name)}: no line of the log is its header row`
      : `  ${cut(name)}: ${rows} ${rows === 1 ? 'line' : 'lines'} below line ${firstLine}, ` +
        `${used} gave something, ${left} unmatched`;
  return ['Tables', ...uses.map(shown)];
}

function rules({ rules: uses }: CheckReport): string[] {
  const idle = uses.filter((use) => use.count === 0);
  const busy = uses.filter((use) => use.count > 0);
  const shown = (use: RuleUse): string =>
    `${use.events.length > 0 ? use.events.join(', ') : 'ignored'}: ${cut(use.pattern)}`;
  return [
    ...(busy.length === 0
      ? []
      : ['Rules that matched', ...busy.map((use) => `  ${String(use.count).padStart(6)} ×  ${shown(use)}`)]),
    ...(idle.length === 0
      ? []
      : [
          ...(busy.length === 0 ? [] : ['']),
          'Rules that matched nothing',
          ...idle.flatMap((use) => [
            `  dialect line ${use.dialectLine}: ${shown(use)}`,
            use.nearest === undefined
              ? '    no unmatched line shares a word with it'
              : `    nearest is line ${use.nearest.line}: ${cut(use.nearest.template)}`,
          ]),
        ]),
  ];
}

function unmatched({ unmatched: kinds, unmatchedKinds }: CheckReport): string[] {
  if (kinds.length === 0) return [];
  const title =
    unmatchedKinds > kinds.length
      ? `Unmatched lines, the ${kinds.length} most common of ${unmatchedKinds} kinds`
      : 'Unmatched lines';
  return [
    title,
    ...kinds.map((kind) => `  ${String(kind.count).padStart(6)} ×  from line ${kind.firstLine}: ${cut(kind.template)}`),
  ];
}

function events({ read }: CheckReport, columns: number): string[] {
  if (read.events.length === 0) return ['No events'];
  const counts = new Map<EventName, number>();
  for (const { event } of read.events) counts.set(event, (counts.get(event) ?? 0) + 1);
  const all = read.events.map((event) => eventLine(event, columns));
  const shown =
    all.length <= 2 * LISTED_EVENTS ? all : [...all.slice(0, LISTED_EVENTS), '  …', ...all.slice(-LISTED_EVENTS)];
  return [
    `${counted(read.events.length, 'event')}: ${[...counts].map(([event, count]) => `${count} ${event}`).join(', ')}`,
    ...shown,
  ];
}

function eventLine(read: LogEvent, columns: number): string {
  const { atMs, event, train, ...fields } = saidBy(read);
  const facts = Object.entries(fields)
    .map(([name, value]) => `${name} ${String(value)}`)
    .join(', ');
  const line = String(read.source.line ?? 0);
  return cut(
    `  ${time(atMs)}${columns < TABLE_WIDTH ? `, line ${line}:` : `  line ${line.padEnd(6)}`} ` +
      `${event}${train === undefined ? '' : ` (${train})`}${facts === '' ? '' : `: ${facts}`}`,
  );
}

function timeline(report: CheckReport, columns: number): string[] {
  const rows = timelineRows(report.spans, report.read.events, columns - 2);
  return rows.length === 0 ? [] : ['Timeline (UTC)', ...rows.map((row) => `  ${row}`)];
}

function contradictions({ contradictions: found }: CheckReport): string[] {
  if (found.length === 0) return [];
  const more = found.length > LISTED_CONTRADICTIONS ? [`  … and ${found.length - LISTED_CONTRADICTIONS} more`] : [];
  return [
    `Contradictions: ${found.length}`,
    ...found.slice(0, LISTED_CONTRADICTIONS).map(({ source, message }) => `  line ${source.line ?? 0}: ${message}`),
    ...more,
  ];
}

function list(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines.map((line) => `  ${line}`)];
}

function percent(count: number, all: number): string {
  return all === 0 ? '' : `${((100 * count) / all).toFixed(1).padStart(5)} %`;
}

function time(atMs: number): string {
  return Number.isFinite(atMs) && Math.abs(atMs) < 8.64e15
    ? new Date(atMs)
        .toISOString()
        .replace('T', ' ')
        .replace(/\.000Z$/, 'Z')
    : '?';
}

/** One line of the report, without control characters. */
function cut(text: string): string {
  const line = text.replace(/\s*\n\s*/g, ' / ').replace(/\p{Cc}/gu, ' ');
  return line.length <= MAX_WIDTH ? line : `${line.slice(0, MAX_WIDTH - 1)}…`;
}
