import { newStamp, StampPattern } from '../../../time/stamp.js';
import { findDate } from '../date-shapes.js';
import { stampsIn } from '../stamp-shapes.js';
import { zoneIn } from '../zone-statement.js';

/** An instant that counts of a program begin at, and the text that states it. */
export interface Origin {
  /** UTC ms. */
  readonly ms: number;
  readonly text: string;
  /** A noon: counts of the night begin some hours after it. */
  readonly isNoon?: true;
}

const DAY_MS = 86_400_000;
/** Words before the origin of counts, or for it. */
const SINCE =
  /(?<!\p{L})(?:since|from|after|epoch|origin|zero|counts?|elapsed|reference|ref|t0|seit|ab|nach|nullpunkt|depuis|apr[eè]s|desde|dal|dalla|dopo|od|vanaf|sinds|sedan|fra|siden|от|с|von|origen|origine|herkomst|epoca|épo\p{L}*)(?!\p{L})|から|以来|以來|起|自/iu;
/** The first day of a year that stands alone: `since_0001`, `epoch 2000`. */
const YEAR_ALONE = /(?<![\d.,:/-])(0001|1601|1900|1904|1970|2000|2001)(?![\d.,:/-])/u;
/** A date before 1900 is written with four digits of the year first. */
const OLD = /(?<!\d)((?:0\d|1[0-8])\d{2})-(\d{2})-(\d{2})(?:[T ](\d{2}):?(\d{2})(?::?(\d{2}))?)?(?!\d)/u;

/**
 * The origins of counts that texts state: an instant behind a word such as _since_, the first day of a year.
 *
 * @param texts lines of the head, names of columns
 */
export function originsIn(texts: readonly string[]): Origin[] {
  return texts.flatMap((whole) => {
    const text = whole.replaceAll('_', ' ');
    const julian = julianTaken(text);
    if (julian !== null) return [{ ms: julian, text }];
    if (!SINCE.test(text)) return [];
    return [oldDate(text), dated(text), yearAlone(text)].flatMap((ms) => (ms === null ? [] : [{ ms, text }]));
  });
}

const NOON =
  /(?<!\p{L})(?:noon|midday|mittags?|midi|mediod[ií]a|mezzogiorno|meio[- ]dia|middag|południ\p{L}*|poledn\p{L}*|middag|migdia)(?!\p{L})|正午/iu;
const HALF_DAY_MS = DAY_MS / 2;
const OFFSET = /^([+-])(\d{2}):(\d{2})$/;

/**
 * The noon that counts of a night begin at, `seconds after local noon`, of the first date that the head states; nothing
 * if it does not say in which zone it was noon.
 */
export function noonIn(heads: readonly string[]): Origin[] {
  const text = heads.find((line) => NOON.test(line) && SINCE.test(line));
  const dayMs = text === undefined ? undefined : heads.map(dated).find((ms) => ms !== null);
  if (text === undefined || dayMs === undefined || dayMs === null) return [];
  const zone = zoneIn(heads);
  const [, sign, hours, minutes] = OFFSET.exec(zone) ?? [];
  if (sign === undefined && zone !== 'utc') return [];
  const aheadMs = (Number(hours ?? 0) * 60 + Number(minutes ?? 0)) * 60_000 * (sign === '-' ? -1 : 1);
  return [{ ms: Math.floor(dayMs / DAY_MS) * DAY_MS + HALF_DAY_MS - aheadMs, text, isNoon: true }];
}

/** `JD - 2400000`: whole Julian days that are taken off; those of modified ones have a placeholder of their own. */
const JULIAN = /(?<!\p{L})(?:H|B)?JD\s?[-\u2212\u2013]\s?(24[0-4]\d{4}(?:[.,]\d)?)(?![\d.,]*\d)/u;
const JULIAN_OF_EPOCH = 2_440_587.5;
const MODIFIED = 2_400_000.5;

function julianTaken(text: string): number | null {
  const days = Number((JULIAN.exec(text)?.[1] ?? '').replace(',', '.'));
  return days === 0 || days === MODIFIED ? null : (days - JULIAN_OF_EPOCH) * DAY_MS;
}

function oldDate(text: string): number | null {
  const [, year, month, day, hour = '0', minute = '0', second = '0'] = OLD.exec(text) ?? [];
  if (year === undefined) return null;
  const date = new Date(0);
  // `Date.UTC` takes the years 0 to 99 for those of the last century.
  date.setUTCFullYear(Number(year), Number(month) - 1, Number(day));
  return date.getTime() + ((Number(hour) * 60 + Number(minute)) * 60 + Number(second)) * 1000;
}

function dated(text: string): number | null {
  const [full] = stampsIn(text)
    .filter(({ pattern }) => /\{year\}/.test(pattern) && /\{day/.test(pattern) && !/\{[abc]\}/.test(pattern))
    .sort((a, b) => b.end - b.start - (a.end - a.start));
  const found = full ?? findDate(text);
  if (found === null || !/\{year\}/.test(found.pattern)) return null;
  const stamp = newStamp();
  const bytes = Buffer.from(text.slice(found.start, found.end));
  const pattern = new StampPattern(found.pattern);
  if (!pattern.readAt(bytes, 0, bytes.length, stamp)) return null;
  const isWhole = pattern.kind === 'date';
  const ms = isWhole ? Math.floor(stamp.ms / DAY_MS) * DAY_MS : stamp.ms;
  return Number.isNaN(stamp.offsetMinutes) ? ms : ms - stamp.offsetMinutes * 60_000;
}

function yearAlone(text: string): number | null {
  const [, year] = YEAR_ALONE.exec(text) ?? [];
  if (year === undefined) return null;
  const date = new Date(0);
  date.setUTCFullYear(Number(year), 0, 1);
  return date.getTime();
}
