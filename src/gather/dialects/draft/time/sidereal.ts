/** Sidereal time in one word. */
const WORD = String.raw`(?:(?<![\p{L}\d])(?:LST|LMST|GMST|GAST|STZ|TSL)(?![\p{L}\d])|sternzeit|sterrentijd|恒星時|恒星时|항성시)`;
const ADJECTIVE = String.raw`(?:sid[eé]r\p{L}*|gwiazdow\p{L}*|hvězdn\p{L}*|звёздн\p{L}*|звездн\p{L}*)`;
const TIME = String.raw`(?:times?|clocks?|hours?|zeit\p{L}*|temps|heures?|tempo|tempi|or[ae]|orari|tiempos?|horas?|tempos?|tijd\p{L}*|czas\p{L}*|čas\p{L}*|время)`;
/** The names of sidereal time: a mount moves at a sidereal rate, but its clock need not. */
const NAME = String.raw`(?:${WORD}|(?<!\p{L})${ADJECTIVE}\s${TIME}(?!\p{L})|(?<!\p{L})${TIME}\s(?:\p{L}{1,8}\s)?${ADJECTIVE})`;
const CLOCK = String.raw`\d{1,2}(?::|h ?|時|时)\d{2}(?:(?::|m ?|分)\d{2}(?:[.,]\d+)?[s秒]?)?`;
/** A sidereal time with its name before or behind it. */
const MARKED = new RegExp(String.raw`(?<=${NAME}\s?[:=]?\s?)${CLOCK}|${CLOCK}(?=\s?${NAME}(?!\s?[:=]?\s?\d))`, 'giu');
const NAMED = new RegExp(NAME, 'iu');
/** What a sentence says that is about another clock as well. */
const OTHER =
  /(?<![\p{L}\d])(?:UTC?|GMT|TU|MEZ|MESZ|CEST?)(?![\p{L}\d])|local (?:time|clock)|ortszeit|heure locale|hora local|ora locale|lokale tijd|czas lokalny|místní|現地|当地/iu;

/** The short form of a star that is lost is no name of a clock: `lst gone`, `LST guide star lost`. */
const NO_CLOCK = /(?<![\p{L}\d])(?:lst(?=\s\p{L})|LST(?=\s?[=:]?\s?(?:\p{L}+\s){0,2}(?:star|lost|loses)(?!\p{L})))/gu;

/** A text in which a time that it calls sidereal is no time any more; of the same length. */
export function withoutSidereal(text: string): string {
  if (!NAMED.test(withoutOthers(text))) return text;
  return text.replace(MARKED, (clock) => clock.replace(/\d/g, 'x'));
}

/** Whether a text says that the times of other lines are sidereal, and nothing of another clock. */
export function saysSidereal(text: string): boolean {
  return NAMED.test(withoutOthers(text)) && !OTHER.test(text) && withoutSidereal(text) === text;
}

const withoutOthers = (text: string): string => text.replace(NO_CLOCK, (word) => ' '.repeat(word.length));
