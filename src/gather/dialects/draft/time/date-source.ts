import { basename } from 'node:path/posix';
import type { StampKind } from '../../time/stamp.js';
import type { DateSource, ZoneDraft } from '../report.js';
import { dateIn, type HeadLine } from './base-lines.js';
import { findDate } from './stamp-shapes.js';

export type { HeadLine };

/** Lines without a stamp that may state the date. */
const HEAD_LINES = 60;

/** Where the date of a log comes from whose stamps have none: a header line, the file's name, or the night. */
export function dateSource(kind: StampKind | null, file: string, unstamped: readonly HeadLine[]): DateSource {
  if (kind !== 'time' && kind !== 'month-day-time') return { from: 'line' };
  const stated = statedIn(unstamped, false);
  if (stated !== null) return stated;
  const named = findDate(basename(file));
  const yearless = statedIn(unstamped, true);
  // Headings of days say more than a name: they tell the day of each line.
  if (yearless !== null && (named === null || !yearless.evening)) {
    const year = yearHint(basename(file), unstamped);
    if (year !== null) return { ...yearless, year };
  }
  return named === null ? { from: 'session' } : { from: 'file', pattern: named.pattern };
}

function statedIn(unstamped: readonly HeadLine[], yearless: boolean): (DateSource & { from: 'header' }) | null {
  for (const { text, number } of unstamped.slice(0, HEAD_LINES)) {
    const date = dateIn(text, yearless);
    if (date === null) continue;
    // A date that is told again during the night is the day's; one at the head is the evening's.
    const again = unstamped.filter((line) => line.number > number && dateIn(line.text, yearless)?.when === date.when);
    return { from: 'header', ...date, line: number, evening: again.length === 0 };
  }
  return null;
}

const YEAR = /(?<![\d.,])20[2-5]\d(?![\d.,])/;

/** The year that the file's name or the head of the log states. */
function yearHint(name: string, head: readonly HeadLine[]): number | 'file' | null {
  if (/(?<!\d)20\d{2}/.test(name)) return 'file';
  for (const { text } of head.slice(0, HEAD_LINES)) {
    const year = YEAR.exec(text);
    if (year !== null) return Number(year[0]);
  }
  return null;
}

const UNIVERSAL =
  /\bUTC\b|\bGMT\b|\bUT\d?\b|[=_ ]ut\b|zulu|weltzeit|temps universel|tiempo universal|tempo universal|universal time|wereldtijd|czas uniwersalny|svetovy cas|světový čas|世界時|世界时|協定世界|协调世界/i;
const OFFSET = /\b(?:UTC|GMT)\s?([+\u2212-])\s?(\d{1,2})(?::?(\d{2}))?\b/;
const LOCAL =
  /ortszeit|local (?:time|clock)|hor[aá]rio local|tiempo local|summer time|sommerzeit|winterzeit|heure d'(?:été|hiver)|heures? (?:de la montre )?légale|wall clock|village clock|miejscow|zegar ścienny|plaatselijk|当地|本地|現地|地元|hora local|heure locale|ora locale|plaatselijke tijd|lokale tijd|czas miejscowy|mistni cas|místní čas|現地時間|地方时|本地时间|当地时间/i;

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
