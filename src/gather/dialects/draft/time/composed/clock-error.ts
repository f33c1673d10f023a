/** How far a clock was wrong. */
export interface ClockError {
  /** Seconds ahead of true time, negative if behind. */
  readonly seconds: number;
  /** It is stated against universal time. */
  readonly isOfUtc: boolean;
}

const CLOCK =
  /(?<!\p{L})(?:clocks?|watch|time(?:s|stamps?)?|uhr(?:en)?|systemuhr|horloge|montre|reloj|orologio|rel[oó]gio|klok|zegar\p{L}*|hodin\p{L}*|klocka\p{L}*|klokken|часы|kello|óra)(?!\p{L})|時計|时钟|시계/iu;
const AHEAD =
  /(?<!\p{L})(?:ahead|fast|vor|voraus|avance|en avance|adelant\p{L}*|avanti|adiantad\p{L}*|voor|spiesz\p{L}*|nap[rř]ed|före|foran|спеш\p{L}*|вперед|edellä|siet\p{L}*)(?!\p{L})|進み|快/iu;
const BEHIND =
  /(?<!\p{L})(?:behind|slow|hinter\p{L}*|geht(?=\P{L}.*\P{L}nach(?!\p{L}))|retard|en retard|atras\p{L}*|indietro|achter|opó[zź]n\p{L}*|spó[zź]n\p{L}*|pozadu|bagud|отста\p{L}*|jäljessä|jätättää|kés\p{L}*)(?!\p{L})|遅れ|慢/iu;
/** What was set right has no error any more. */
const CORRECTED =
  /(?<!\p{L})(?:corrected|adjusted|compensated|already|set right|synced|synchroni[sz]ed|synchroni\p{L}*|gestellt|korrigiert|berücksichtigt|corrig\p{L}*|corregid\p{L}*|corrett\p{L}*|gecorrigeerd|skorygowan\p{L}*|opraven\p{L}*)(?!\p{L})/iu;
const SET_RIGHT = new RegExp(`${CORRECTED.source}|(?<!\\p{L})set(?!\\p{L})|gesetzt|ustawion|nastaven|合わせ`, 'iu');
const NUMBER = String.raw`([+-]?\d{1,5}(?:[.,]\d+)?)`;
const SECONDS = String.raw`(?:s|secs?|seconds?|sek\p{L}*|secondes?|segundos?|second[io]|seconden|vteřin\p{L}*|sekunt\p{L}*|с|сек\p{L}*|秒)`;
const MINUTES = String.raw`(?:min|mins|minutes?|minuten|minutos?|minut[ioy]?|мин\p{L}*|分)`;
const BOTH = new RegExp(`(?:${NUMBER}\\s?${MINUTES}\\.?(?!\\p{L})\\D{0,5})?${NUMBER}\\s?${SECONDS}(?!\\p{L})`, 'iu');
const MINUTES_ALONE = new RegExp(`${NUMBER}\\s?${MINUTES}(?!\\p{L})`, 'iu');
/** `"ahead_of_utc_s": 18`: a field named for it. */
const NAMED = new RegExp(
  String.raw`(?<!\p{L})(ahead|behind|fast|slow)[\p{L}\s]{0,24}?(?<=[\s_])(s|sec|seconds)["']?\s?[=:]\s?["']?${NUMBER}`,
  'iu',
);
const UTC = /(?<!\p{L})(?:UTC?|GMT|TU|universal)(?!\p{L})/iu;
/** A longer difference is a zone's. */
const MOST_S = 3000;

/** The error of the log's clock that its head states; `null` if it states none, or one that was set right. */
export function clockError(texts: readonly string[]): ClockError | null {
  return firstError(texts.filter((text) => !CORRECTED.test(text.replaceAll('_', ' '))));
}

/** The error that a clock had until it was set right, as the first such text states it; `null` if none does. */
export function errorSetRight(texts: readonly string[]): ClockError | null {
  return firstError(texts.filter((text) => SET_RIGHT.test(text)));
}

function firstError(texts: readonly string[]): ClockError | null {
  for (const whole of texts) {
    const text = whole.replaceAll('_', ' ');
    const named = NAMED.exec(text);
    if (named !== null) {
      const seconds = numberIn(named[3]) * (/ahead|fast/i.test(named[1] ?? '') ? 1 : -1);
      if (isError(seconds)) return { seconds, isOfUtc: UTC.test(text) };
    }
    const [ahead, behind] = [AHEAD.test(text), BEHIND.test(text)];
    if (!CLOCK.test(text) || ahead === behind) continue;
    const seconds = lengthIn(text) * (ahead ? 1 : -1);
    if (isError(seconds)) return { seconds, isOfUtc: UTC.test(text) };
  }
  return null;
}

function lengthIn(text: string): number {
  const both = BOTH.exec(text);
  if (both !== null) return numberIn(both[1] ?? '0') * 60 + numberIn(both[2]);
  return numberIn(MINUTES_ALONE.exec(text)?.[1]) * 60;
}

function isError(seconds: number): boolean {
  return seconds !== 0 && Math.abs(seconds) <= MOST_S;
}

function numberIn(text = ''): number {
  return text === '' ? NaN : Number(text.replace(',', '.'));
}
