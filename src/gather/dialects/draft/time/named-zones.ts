import { zoneByName } from '../../time/zone.js';
import type { ZoneDraft } from '../report.js';

/** A name of the IANA time zone database. */
const IANA =
  /(?<![\p{L}\d/])(?:Africa|America|Antarctica|Arctic|Asia|Atlantic|Australia|Europe|Indian|Pacific)(?:\/[A-Z][A-Za-z_-]+){1,2}/u;
/** Words beside it that say it is the clock's, not just the site's. */
const OF_CLOCKS =
  /(?<!\p{L})(?:tz|time|times|timezone|zone|clock|uhr\p{L}*|zeit\p{L}*|zona|fuso|fuseau|heures?|horas?|ora|ore|orari\p{L}*|huso|tijd\p{L}*|czas\p{L}*|strefa|čas\p{L}*|pásmo|часов\p{L}*|время|saat)(?!\p{L})|時刻|時間|タイムゾーン|时区|时间|時區|시간/iu;

/** Clocks that countries name after themselves and never change, by their zone (IANA time zone database). */
const NAMED: readonly (readonly [RegExp, ZoneDraft])[] = [
  [/日本(?:標準)?時[間刻]?|japan(?:ese)? (?:standard )?time|(?<![\p{L}\d])JST(?![\p{L}\d])/iu, 'Asia/Tokyo'],
  [/(?:北京|中国(?:标准)?)时[间刻]|(?:beijing|china standard) time/iu, 'Asia/Shanghai'],
  [/(?:台北|臺北|台灣|臺灣)時[間刻]/u, 'Asia/Taipei'],
  [/한국 ?(?:표준)?시|korea(?:n)? (?:standard )?time|(?<![\p{L}\d])KST(?![\p{L}\d])/iu, 'Asia/Seoul'],
  [/московск\p{L}* врем|по москве|moscow time|(?<![\p{L}\d])(?:MSK|МСК)(?![\p{L}\d])/iu, 'Europe/Moscow'],
  [/ind(?:ia|ian) standard time/iu, 'Asia/Kolkata'],
];

/** Clocks that are the site's in winter; where a summer's log names one, it was not put forward. */
const OF_WINTER: readonly (readonly [RegExp, ZoneDraft])[] = [
  [/(?<![\p{L}\d])WET(?![\p{L}\d])/u, '+00:00'],
  [/(?<![\p{L}\d])(?:CET|MEZ|SEČ)(?![\p{L}\d])/u, '+01:00'],
  [/(?<![\p{L}\d])EET(?![\p{L}\d])/u, '+02:00'],
];

/** The offset of the winter clock that a text names; `null` if it names none, or that of summer as well. */
export function winterClock(text: string): ZoneDraft | null {
  const named = OF_WINTER.filter(([pattern]) => pattern.test(text));
  const [only] = named;
  return only === undefined || named.length > 1 || /(?<!\p{L})(?:CEST|MESZ|SELČ|WEST|EEST)/u.test(text)
    ? null
    : only[1];
}

/** The zone that a text names, for its clock; `null` if it names none. */
export function zoneNamed(text: string): ZoneDraft | null {
  const named = NAMED.find(([pattern]) => pattern.test(text));
  if (named !== undefined) return named[1];
  const [name] = OF_CLOCKS.test(text) ? (IANA.exec(text) ?? []) : [];
  return name === undefined || zoneByName(name) === null ? null : name;
}
