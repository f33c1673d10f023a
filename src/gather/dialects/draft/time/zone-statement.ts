import { ZONE_WORDS } from '../../time/offsets.js';
import type { ZoneDraft } from '../report.js';
import { winterClock, zoneNamed } from './named-zones.js';

const UNIVERSAL =
  /\bUTC\b|\bGMT\b|\bUT\d?\b|\bTU\b|[=_ ]ut\b|zulu|greenwich|weltzeit|temps universel|tiempo universal|tempo universale?|universal time|wereldtijd|czas\S* uniwersaln|sv[eě]tov[yý]\S* [cč]as|世界時|世界时|協定世界|协调世界|세계 ?시|협정 ?세계/i;
const OFFSET = /\b(?:UTC?|GMT|TU)\s?([+\u2212-])\s?(\d{1,2})(?::?(\d{2}))?\b/;
/** `Weltzeit + 2 h`: universal time in words, followed by hours. */
const SUM =
  /(?:universel|universal[e]?|weltzeit|wereldtijd|greenwich|uniwersaln\S+|世界時|世界时)\s*([+\u2212-])\s*(\d{1,2})\s*(?:h\b|hours?|stunden|heures?|horas?|ore\b|uur|godz\S*|hod\S*|時間|小时|小時)/iu;
const LOCAL =
  /ortszeit|local (?:time|clock)|hor[aá]rio local|tiempo local|summer time|sommerzeit|winterzeit|heure d'(?:été|hiver)|heures? (?:de la montre )?légale|wall clock|village clock|clock on the wall|klok aan de muur|wandklok|wanduhr|reloj de (?:la )?pared|orologio (?:da|a) (?:parete|muro)|horloge murale|relógio (?:da|de) parede|nástěnn\S+ hodin|miejscow|zegar ścienny|plaatselijk|当地|本地|現地|地元|hora local|heure locale|ora locale|ora legale|ora solare|plaatselijke tijd|lokale tijd|zomertijd|wintertijd|czas (?:letni|zimowy)|letní čas|zimní čas|mistni cas|místní čas|地方时|hora de (?:verano|invierno|verão)|夏時間|夏时|현지 ?시|지방시/i;

/** The zone that a clock is said not to be on: `not UTC+3`, `UTC+3 değil`. */
const ZONE_NAME = String.raw`(?:(?:UTC?|GMT|TU)(?:\s?[+\u2212-]\s?\d{1,2}(?::?\d{2})?)?|CEST|CET|MESZ|MEZ)(?![\p{L}\d])`;
const NOT = '(?:not|nicht|pas|no|non|não|nao|niet|nie|ne|inte|ikke|ej|ei|не|değil|ではなく|ではない|不是|并非|아니라)';
const DENIED = new RegExp(
  String.raw`(?<!\p{L})${NOT}\s?(?:in |en |w |v )?${ZONE_NAME}|${ZONE_NAME}\s?(?:değil|ではなく|ではない|아니라)(?!\p{L})`,
  'giu',
);

/** The same letters as a code that a list explains: `UT = uittrillen`. */
const CODE = /^\P{L}*(?:UT\d?|TU)\s*(?:\t|[=:]|[-–—]\s)\s*(?=\p{L})/u;

/** A clock that is not put forward in summer. */
const ALL_YEAR =
  /ganzjährig|das ganze jahr|all (?:the )?year|year[- ]round|toute l['’]année|todo el año|tutto l['’]anno|todo o ano|tot l['’]any|hele jaar|cały rok|po celý rok|året (?:om|rundt)|hele året|通年|一年中|全年|(?<!\p{L})(?:keine|ohne|no|not|never|without|sin|sans|senza|niente|zonder|geen|bez|nie|utan|ingen|sem|uden|uten)\s(?:\p{L}+\s){0,2}(?:sommerzeit|summer time|daylight saving|DST|(?:horario|hora) de verano|heure d['’]été|ora legale|zomertijd|czasu letniego|letního času|sommartid|sommertid|(?:horário|hora) de verão)/iu;

const OF_WALLS = new RegExp(`(?<![\\p{L}\\p{N}])(?:${ZONE_WORDS})(?![\\p{L}\\p{N}])`, 'u');

/** Numbers of hours of clock offsets, in words. */
const IN_WORDS: readonly string[] = [
  'one eine ein una un uno uma une een jedn\\S* jednu hodinu 一',
  'two zwei dos deux due duas dois twee dwie dwa dv[eě] [二两兩]',
  'three drei tres trois tre três drie trzy t[rř]i 三',
];
const HOURS = String.raw`hours?|stunden?|horas?|heures?|ore|ora|uur|uren|godzin\S*|godz\.?|hodin\S*|hod\.?|小时|小時|時間|h`;
const AHEAD =
  /ahead|before|fast|\bvor\b|voraus|delante|adelant|avance|avanti|frente|adiantad|voor|przed|naprz[oó]d|nap[rř]ed|p[rř]ed\b|進|早|先/iu;
const BEHIND = /behind|slow|\bnach\b|hinter|atras|retard|indietro|atrás|achter|za\b|opó[zź]n|遅|晚|慢/iu;

/**
 * The zone stated at the beginning of the log; the site's if there is none.
 *
 * @param firstMs the first time of the log on its own clock, on any date, ms
 */
export function zoneIn(texts: readonly string[], firstMs = NaN): ZoneDraft {
  for (const stated of texts) {
    // `hora_UTC`, a column name.
    const text = stated.replaceAll('_', ' ').replace(CODE, '').replace(DENIED, ' ');
    const beside = zoneBesideUtc(text, firstMs);
    if (beside !== null) return beside;
    const offset = OFFSET.exec(text) ?? SUM.exec(text);
    if (offset !== null) {
      const [, sign = '+', hours = '0', minutes = '00'] = offset;
      return zone(sign === '+' ? 1 : -1, Number(hours), minutes);
    }
    if (UNIVERSAL.test(text)) {
      const away = hoursAway(text);
      if (away !== null) return zone(Math.sign(away), Math.abs(away), '00');
    }
    const named = UNIVERSAL.test(text) ? null : zoneNamed(stated);
    if (named !== null) return named;
    const winter = ALL_YEAR.test(text) ? winterClock(text) : null;
    if (winter !== null) return winter;
    if (LOCAL.test(text)) return 'site';
    if (UNIVERSAL.test(text)) return 'utc';
    // `Zeit(MESZ)`: wall clock time, in summer or in winter.
    if (OF_WALLS.test(text)) return winterClock(text) ?? 'site';
  }
  return 'site';
}

function zone(sign: number, hours: number, minutes: string): ZoneDraft {
  return `${sign < 0 ? '-' : '+'}${String(hours).padStart(2, '0')}:${minutes}`;
}

/** `two hours ahead of Greenwich`: hours east, or `null` if the text states no difference. */
function hoursAway(text: string): number | null {
  const ahead = AHEAD.test(text);
  if (!ahead && !BEHIND.test(text)) return null;
  const spelt = IN_WORDS.findIndex((words) =>
    new RegExp(
      `(?:(?<!\\p{L})|(?=[一二两兩三]))(?:${words.split(' ').join('|')})(?:\\s?(?:${HOURS})(?!\\p{L})|\\s+(?=ahead|behind))`,
      'iu',
    ).test(text),
  );
  const digits = new RegExp(`(?<![\\d.,:])(\\d{1,2})\\s?(?:${HOURS})(?!\\p{L})`, 'iu').exec(text);
  const hours = digits === null ? spelt + 1 : Number(digits[1]);
  return hours >= 1 && hours <= 14 ? hours * (ahead ? 1 : -1) : null;
}

const CLOCKS = /(?<![\d:])([012]?\d):([0-5]\d)(?::([0-5]\d)(?:[.,]\d+)?)?(\s?(?:Z|UTC?|GMT)(?![\p{L}\d]))?/gu;
const DAY_S = 86_400;
const HALF_HOUR_S = 1800;
/** A log begins within this time of the time in its head, s. */
const SOON_S = 2700;

/**
 * The zone from a line that states an instant on two clocks, one of them UTC: the log continues on one of them. `null`
 * if the line states no two, or the log continues on neither.
 */
function zoneBesideUtc(text: string, firstMs: number): ZoneDraft | null {
  const clocks = [...text.matchAll(CLOCKS)].map(([, h, m, s = '0', mark]) => ({
    seconds: Number(h) * 3600 + Number(m) * 60 + Number(s),
    isUtc: mark !== undefined,
  }));
  const [utc, other] = [clocks.find(({ isUtc }) => isUtc), clocks.find(({ isUtc }) => !isUtc)];
  if (utc === undefined || other === undefined || clocks.length !== 2) return null;
  const ahead = ((other.seconds - utc.seconds + 1.5 * DAY_S) % DAY_S) - DAY_S / 2;
  const halves = Math.round(ahead / HALF_HOUR_S);
  if (halves === 0 || Math.abs(ahead - halves * HALF_HOUR_S) > 2) return null;
  const goesOn = ({ seconds }: { readonly seconds: number }): boolean =>
    (firstMs / 1000 - seconds + 2 * DAY_S) % DAY_S < SOON_S;
  if (goesOn(utc)) return 'utc';
  return goesOn(other) ? zone(halves, Math.abs(halves) >> 1, halves % 2 === 0 ? '00' : '30') : null;
}
