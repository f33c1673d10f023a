import type { CountedLine } from './base-choice.js';
import type { HeadLine } from './base-lines.js';

/** Candidate units of a counter, s. */
const UNITS = [1, 0.001, 0.1, 0.01, 60, 3600, 86_400, 1e-6] as const;
/** Those of cycles and ticks, which only lengths that are borne out can tell. */
const RARE_UNITS = [1 / 50, 1 / 60, 1 / 64, 1 / 128, 1 / 256, 1 / 1024, 1 / 32_768, 1e-7, 1e-9] as const;
/** Plausible duration of a night's log, s. */
const NIGHT_S = { from: 1200, to: 72_000 } as const;
/** Usual exposure lengths, s; a line with one is followed by another that much later. */
const STATED =
  /(?<![\d.,:-])(\d{2,4})(?:[.,]0+)?\s?(?:s|sec|secs|seconds?|sek\w*|segundos?|secondes?|secondi|seconden|sekund\w*|vteřin\w*|秒)?(?![\p{L}\d.,:/-])/gu;
const LENGTHS = new Set([
  30, 45, 60, 90, 120, 150, 180, 200, 240, 300, 360, 400, 420, 480, 500, 540, 600, 720, 900, 1200,
]);
/** Number of lines after one with a length among which its end is searched for. */
const WITHIN = 25;
const AFTER_S = { short: 1.5, long: 4 } as const;
/** Minimum number of confirmed lines with a length, and the lead over the next best unit. */
const BORNE_OUT = 0.3;
const AHEAD = 1.5;
const MIN_STATED = 5;
/** Fractions of a stated length after which nothing ends: lines that follow then do so by chance, as samples do. */
const AMID = [0.61, 0.83] as const;
/** Fraction of counts with decimals above which the unit is not a tenth or hundredth of a second. */
const DECIMALS = 0.5;

const NUMBER = String.raw`(\d+(?:[.,]\d+)?)`;
const SECOND = String.raw`s(?:ec|econds?|ek\w*|egundos?|econdes?|econdi)?\b`;
const TICK = String.raw`(?:ticks?|counts?|units?|jiff\w+|takt\w*|impuls\w*|pulsos?|tics?|tikken?|tyk\w*)`;
/** A header line that mentions seconds. */
const SECONDS_NAMED =
  /(?<=\p{L}[_/]|\p{L} ?[([])s(?=[\s)\],;|]|$)|(?<!\p{L})s(?:ec|ecs|econds?|ek\.?|ekunden?|egundos?|econdes?|econdi|econden|ekundy?|(?=\s(?:since|after|seit|nach|depuis|desde|dal|od|sinds)\b))(?!\p{L})|秒/iu;
/** Statements of the counter's unit: the seconds of the first match. */
const STATEMENTS: readonly (readonly [RegExp, (n: number) => number])[] = [
  [
    new RegExp(String.raw`${TICK}[\p{L}\s]{0,12}[=:]?\s?(?:is|are|of|ist|est|es|à|a|van|to)?\s?${NUMBER}\s?ms\b`, 'iu'),
    (n) => n / 1000,
  ],
  [
    new RegExp(
      String.raw`${TICK}[\p{L}\s]{0,12}[=:]?\s?(?:is|are|of|ist|est|es|à|a|van|to)?\s?${NUMBER}\s?${SECOND}`,
      'iu',
    ),
    (n) => n,
  ],
  [new RegExp(String.raw`${NUMBER}\s?ms\s?(?:/|per|a|je|par|por)\s?${TICK}`, 'iu'), (n) => n / 1000],
  [new RegExp(String.raw`${NUMBER}\s?${SECOND}\s?(?:/|per|a|je|par|por)\s?${TICK}`, 'iu'), (n) => n],
  [
    new RegExp(
      String.raw`${NUMBER}\s?${TICK}\s?(?:/|per|a|every|in a|je|par|por)\s?(?:one\s)?(?:second|sec|s|sekunde|seconde|segundo|secondo)\b`,
      'iu',
    ),
    (n) => 1 / n,
  ],
  [
    new RegExp(
      String.raw`${TICK}[ _-]?(?:per|a|pro|je|par|por|al)[ _-]?(?:sec(?:onde?|ondo)?|s|sekunde|segundo)["']?\s?[=:]?\s?["']?${NUMBER}(?![\d.,:])`,
      'iu',
    ),
    (n) => 1 / n,
  ],
];

/**
 * The unit of a log's counter, s: as a line states it; otherwise the unit for which the log has the duration of a night
 * and lines with a length are followed by another that much later. 1 if there is no evidence for another.
 *
 * @param times the counts as if they were seconds, in ms
 * @param head lines that may state the unit
 * @param foot the same below all counts: lines of the night may end there, so that only plain statements count
 */
export function countUnit(
  times: readonly CountedLine[],
  lines: readonly HeadLine[],
  head: readonly HeadLine[],
  foot: readonly HeadLine[] = [],
): number {
  const seconds = spanS(times);
  const isFitting = (unit: number): boolean => isFittingSpan(times, seconds * unit, unit);
  for (const { text } of [...head, ...foot]) {
    for (const [statement, ofUnit] of STATEMENTS) {
      const value = Number(statement.exec(text)?.[1]?.replace(',', '.'));
      if (value > 0 && isFitting(ofUnit(value))) return ofUnit(value);
    }
  }
  const isNamed = SECONDS_NAMED.test(head.map(({ text }) => text).join('\n'));
  // `t: s since the beginning`: if seconds give the duration of a night, they are not tenths.
  if (isNamed && isFitting(1)) return 1;
  const lengths = statedLengths(times, lines);
  const hasDecimals = times.filter(({ ms }) => ms % 1000 !== 0).length >= DECIMALS * times.length;
  const fitting = UNITS.filter((unit) => isFitting(unit) && !(hasDecimals && (unit === 0.1 || unit === 0.01)));
  const ranked = [...fitting, ...(hasDecimals ? [] : RARE_UNITS.filter(isFitting))]
    .map((unit) => ({ unit, share: borneOut(times, lengths, unit) - byChance(times, lengths, unit) }))
    .sort((a, b) => b.share - a.share);
  const [best, next] = ranked;
  if (best === undefined) return 1;
  const isSure = lengths.length >= MIN_STATED && best.share >= BORNE_OUT && best.share >= AHEAD * (next?.share ?? 0);
  if (isSure) return best.unit;
  // A log may well be shorter than a night, but not longer.
  const isShort = seconds < NIGHT_S.from && isNamed;
  return isShort ? 1 : (fitting[0] ?? 1);
}

/**
 * Minimum number of lines with a length followed by another that much later, if only this shows that counts are times.
 */
const SURELY_BORNE_OUT = 0.75;

/**
 * Whether counts are certainly times, in some unit: with the duration of a night, and confirmed by the lengths in
 * lines.
 */
export function isBorneOut(times: readonly CountedLine[], lines: readonly HeadLine[]): boolean {
  const seconds = spanS(times);
  const lengths = statedLengths(times, lines);
  return (
    lengths.length >= MIN_STATED &&
    UNITS.some(
      (unit) => isFittingSpan(times, seconds * unit, unit) && borneOut(times, lengths, unit) >= SURELY_BORNE_OUT,
    )
  );
}

/** The duration of the log if its counts were seconds. */
function spanS(times: readonly CountedLine[]): number {
  let spanMs = 0;
  times.forEach(({ ms }, i) => {
    spanMs += Math.max(0, ms - (times[i - 1]?.ms ?? ms));
  });
  return spanMs / 1000;
}

/** Whether the log has the duration of a night in this unit; minutes and hours have decimals. */
function isFittingSpan(times: readonly CountedLine[], nightS: number, unit: number): boolean {
  if (unit >= 60 && times.filter(({ ms }) => ms % 1000 !== 0).length < 0.5 * times.length) return false;
  return nightS >= NIGHT_S.from && nightS <= NIGHT_S.to;
}

interface Stated {
  readonly index: number;
  readonly seconds: number;
}

function statedLengths(times: readonly CountedLine[], lines: readonly HeadLine[]): Stated[] {
  const textOf = new Map(lines.map(({ number, text }) => [number, text] as const));
  return times.flatMap(({ line }, index) => {
    const numbers = [...(textOf.get(line) ?? '').matchAll(STATED)].map(([, digits]) => Number(digits));
    const seconds = numbers.find((number) => LENGTHS.has(number));
    return seconds === undefined ? [] : [{ index, seconds }];
  });
}

/** The same fraction for parts of the lengths: if lines are dense, some line follows after any time. */
function byChance(times: readonly CountedLine[], lengths: readonly Stated[], unit: number): number {
  const shares = AMID.map((part) =>
    borneOut(
      times,
      lengths.map(({ index, seconds }) => ({ index, seconds: seconds * part })),
      unit,
    ),
  );
  return shares.reduce((sum, share) => sum + share, 0) / shares.length;
}

/** Fraction of the lines with a length that are followed by another line that much later. */
function borneOut(times: readonly CountedLine[], lengths: readonly Stated[], unit: number): number {
  const found = lengths.filter(({ index, seconds }) => {
    const from = times[index]?.ms ?? NaN;
    return times.slice(index + 1, index + 1 + WITHIN).some(({ ms }) => {
      const over = ((ms - from) / 1000) * unit - seconds;
      return over >= -AFTER_S.short && over <= AFTER_S.long;
    });
  });
  return found.length / Math.max(1, lengths.length);
}

/** The time pattern with its counts in another unit. */
export function inUnit(pattern: string, unit: number): string {
  if (unit === 1) return pattern;
  // Nine decimals, as many as a pattern may have, and no exponent.
  const factor = unit.toFixed(9).replace(/\.?0+$/, '');
  return pattern
    .replace('{elapsed-hex}', `{elapsed-hex*${factor}}`)
    .replace('{elapsed}', unit === 0.001 ? '{elapsed-ms}' : `{elapsed*${factor}}`);
}
