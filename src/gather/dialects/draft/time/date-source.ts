import { basename } from 'node:path/posix';
import type { StampKind } from '../../time/stamp.js';
import type { DateSource, SectionDraft, ZoneDraft } from '../report.js';
import { findDate, stampsIn } from './stamp-shapes.js';

/** Lines without a stamp that may state the date. */
const HEAD_LINES = 60;

/** A line without a stamp, or the beginning of the log. */
export interface HeadLine {
  readonly text: string;
  readonly number: number;
}

/** Where the date of a log comes from whose stamps have none: a header line, the file's name, or the night. */
export function dateSource(kind: StampKind | null, file: string, unstamped: readonly HeadLine[]): DateSource {
  if (kind !== 'time' && kind !== 'month-day-time') return { from: 'line' };
  for (const { text, number } of unstamped.slice(0, HEAD_LINES)) {
    const date = findDate(text);
    if (date === null) continue;
    const when = `${lead(text, date.start)}(?<date>.+)`;
    // A date that is told again during the night is the day's; one at the head is the evening's.
    const again = unstamped.filter((line) => line.number > number && findDate(line.text)?.pattern === date.pattern);
    return { from: 'header', when, pattern: date.pattern, line: number, evening: again.length === 0 };
  }
  const named = findDate(basename(file));
  return named === null ? { from: 'session' } : { from: 'file', pattern: named.pattern };
}

/** The line that states what relative times count from: of several, the form that most of them share. */
export function sectionIn(lines: readonly HeadLine[]): SectionDraft | null {
  const forms = new Map<string, { section: SectionDraft; count: number }>();
  for (const { text } of lines) {
    const stamp = stampsIn(text).find(({ pattern }) => /\{day\}|\{b\}|\{epoch/.test(pattern));
    if (stamp === undefined) continue;
    const base = stamp.pattern.replace('{a}', '{day}').replace('{b}', '{month}').replace('{c}', '{year2}');
    const section = { begin: `${lead(text, stamp.start)}(?<time>.+)`, base };
    const form = forms.get(section.begin) ?? { section, count: 0 };
    forms.set(section.begin, form);
    form.count++;
  }
  return [...forms.values()].sort((a, b) => b.count - a.count)[0]?.section ?? null;
}

const UNIVERSAL =
  /\bUTC\b|\bGMT\b|\bUT\d?\b|[=_ ]ut\b|zulu|weltzeit|temps universel|tiempo universal|tempo universal|universal time|wereldtijd|czas uniwersalny|svetovy cas|světový čas|世界時|世界时|協定世界|协调世界/i;
const OFFSET = /\b(?:UTC|GMT)\s?([+\u2212-])\s?(\d{1,2})(?::?(\d{2}))?\b/;
const LOCAL =
  /ortszeit|local time|hora local|heure locale|ora locale|plaatselijke tijd|lokale tijd|czas miejscowy|mistni cas|místní čas|現地時間|地方时|本地时间|当地时间/i;

/** The zone that the beginning of a log states; the site's where it says nothing. */
export function zoneIn(texts: readonly string[]): ZoneDraft {
  for (const text of texts) {
    const offset = OFFSET.exec(text);
    if (offset !== null) {
      const [, sign = '+', hours = '0', minutes = '00'] = offset;
      return `${sign === '+' ? '+' : '-'}${hours.padStart(2, '0')}:${minutes}`;
    }
    if (LOCAL.test(text)) return 'site';
    if (UNIVERSAL.test(text)) return 'utc';
  }
  return 'site';
}

/** The last words before a place in a line, as a pattern that tells the line. */
function lead(line: string, end: number): string {
  const words = line
    .slice(0, end)
    .trimStart()
    .split(/(?<=\s)/)
    .slice(-4)
    .join('');
  return (words === '' ? '^' : words).replace(/[\\$.*+?()[\]{}|]/g, '\\$&').replace(/\d+/g, '\\d+');
}
