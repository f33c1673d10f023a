import type { StampPlace } from '../../time/stamp.js';
import { plainCount } from './count-shapes.js';
import { isNoBareTime } from './bare-minutes.js';
import type { StampGuess } from './guess.js';
import { takesMinutesForHours } from './no-hours.js';
import { headsBlocks, headsNodes } from './dated-heads.js';
import { numbersLines } from './of-day.js';
import { atTheEnd, inFrontOrAnywhere, MIN_COVERAGE, shapesIn } from './stamp-candidates.js';
import { numbersBlocks } from './numbered-blocks.js';
import { ORDINAL } from './ordinal-days.js';
import { COUNTDOWN, countedDown } from './composed/countdown.js';
import type { Proof } from './stamp-proof.js';
import type { StatedTimes } from './stated-times.js';
import { withoutSecondClock } from './same-instant.js';
import { beforeSecondCount } from './two-stamps.js';

/** Minimum fraction of forward steps of elapsed times. */
const MIN_FORWARD = 0.9;
/** Maximum number of days in a log. */
const MOST_DAYS = 10;
/** Minimum fraction of lines that end in their stamp. */
const AT_END = 0.7;
/** A night stated at the head begins within this time of the first line, and is evidence for the date order. */
const NEAR_MS = 2 * 86_400_000;
const AS_STATED = 1.1;
const INDEX = 0.95;
/** Hexadecimal digits that run forward are no times of day: a count of them is worth more than others. */
const HEX_WORTH = { sure: 1.5, unsure: 0 } as const;
const HEX_LETTERS = 0.3;
/** A time with its fraction is more than one without. */
const DECIMAL = 1.02;
const TOO_SHORT = 0.3;
const SHORT_MS = 1_200_000;
/** Nobody exposes the sky between these local times, anywhere. */
const DAYLIGHT = { fromMs: 34_200_000, toMs: 55_800_000 } as const;
const HEX_COUNT =
  /^[^\p{L}\d]{0,3}(?:\p{L}{1,10}\s?[=:+]\s?)?(?:0x)?(?=\d*[a-f])(?=[a-f]*\d)[\da-f]{4,16}(?![\p{L}\d_.,:-])/iu;
const DAY_MS = 86_400_000;
const APART_MS = 20 * DAY_MS;
/** Nights begin after this local time anywhere. */
const EVENING_MS = 15 * 3_600_000;
/** Minimum number and fraction of dated stamps in order. */
const STEADY = 0.99;
const MANY = 20;
const DAYS = /\{(?:julian|mjd)\}/;
const TIME = /\d{1,2}:\d{2}:\d{2}/;
const HEAD_LINES = 20;
const CLOCK = /^\W{0,3}\d{1,2}:\d{2}:\d{2}/;
/** A reading with a date is better than one without, and anything is better than a bare number. */
const WORTH = {
  epoch: 1.15,
  'date-time': 1.15,
  'month-day-time': 1.08,
  time: 1,
  date: 0,
  'month-day': 0,
  year: 0,
  elapsed: 0.7,
} as const;
/** A stamp comes first, or else at the end, rather than anywhere. */
const PLACE = { start: 1, end: 0.98, anywhere: 0.97 } as const;

interface Rated {
  readonly guess: StampGuess;
  readonly score: number;
  readonly spanMs: number;
  readonly kind: keyof typeof WORTH;
}

/**
 * The time pattern that best reads the lines of a log, each candidate tested on the lines: it must read many of them,
 * its times must run forward and fall in plausible years. `null` when none does.
 *
 * @param places where in their lines stamps may be
 */
export function guessStamp(
  lines: readonly string[],
  { hasBase, stated, heads: headLines = [] }: StatedTimes,
  places: readonly StampPlace[] = ['start', 'end', 'anywhere'],
): StampGuess | null {
  let best: Rated | null = null;
  let dated: Rated | null = null;
  let days: Rated | null = null;
  let heads: Rated | null = null;
  let first: Rated | null = null;
  const isDown = hasBase && [...headLines, ...lines].some((line) => COUNTDOWN.test(line));
  const firstTime = CLOCK.test(lines.slice(0, HEAD_LINES).find((line) => TIME.test(line)) ?? '');
  for (const [shape, place, around] of shapesIn(lines, hasBase)) {
    const candidates = place === 'end' ? atTheEnd : inFrontOrAnywhere;
    const asRead = ordersOf(shape).flatMap((pattern) => candidates(pattern, around, lines));
    const orders = isDown ? asRead.map((one) => countedDown(one, lines)) : asRead;
    const likely = orders.filter(({ proof }) => proof.forward > 0.9 && proof.plausible > 0.9);
    const shortest = Math.min(...likely.map(({ proof }) => proof.spanMs).filter((ms) => ms > 0));
    // A night that begins on one day and ends months later has the wrong date order.
    const valid = new Set(
      likely.filter(({ proof }) => proof.spanMs < APART_MS || proof.spanMs <= 2 * shortest).map(({ order }) => order),
    );
    for (const { guess, proof, kind } of orders) {
      if (!places.includes(guess.at)) continue;
      // A column of measurements is not a clock.
      if (kind === 'elapsed' && proof.forward < MIN_FORWARD) continue;
      // Nor is an index before one.
      const isIndex = kind === 'elapsed' && proof.steady >= STEADY;
      if (numbersBlocks(guess.pattern, lines)) continue;
      // A clock that begins in the evening is a time of day, whatever the order of lines.
      if (kind === 'elapsed' && proof.firstMs > EVENING_MS && proof.firstMs < DAY_MS && (firstTime || isSpelt(guess)))
        continue;
      // A line counter before a time of day is not a day of the year.
      if (guess.pattern.includes('{day-of-year}') && proof.days > MOST_DAYS) continue;
      if (isNoBareTime(guess.pattern, guess.at, lines, proof)) continue;
      // Nor is a date other than the one at the head.
      if (ORDINAL.test(guess.pattern) && stated.length > 0 && !isNear(proof, stated)) continue;
      if (takesMinutesForHours(guess.pattern, guess.at, lines)) continue;
      // Line numbers after a date are not seconds of the day.
      if (numbersLines(guess.pattern, lines)) continue;
      // Times at the ends of a few lines are part of their content.
      if (place === 'end' && proof.coverage < AT_END) continue;
      const score =
        proof.coverage *
        proof.forward ** 3 *
        proof.plausible *
        WORTH[kind] *
        PLACE[guess.at] *
        (isNear(proof, stated) ? AS_STATED : 1) *
        (isIndex ? INDEX : 1) *
        (guess.pattern.includes('{decimal-minute}') ? DECIMAL : 1) *
        (isHexadecimal(guess.pattern) ? hexadecimal(lines) : 1) *
        (isTooShort(guess.pattern, proof, lines.length) ? TOO_SHORT : 1);
      const dayFirstAssumed = shape.includes('{a}') && valid.size > 1;
      // Of two date orders the one with the shorter log: nights are days apart, not months.
      const shorter =
        best !== null && Math.abs(score - best.score) < 1e-6 && proof.spanMs > 0 && proof.spanMs < 0.5 * best.spanMs;
      const own = {
        guess: { ...guess, dayFirstAssumed, coverage: proof.coverage, forward: proof.forward },
        score,
        spanMs: proof.spanMs,
        kind,
      };
      const isHeading = (kind === 'date-time' || kind === 'epoch') && guess.at === 'start' && proof.plausible > 0.9;
      if (isHeading && proof.coverage * lines.length >= MANY) {
        if (proof.forward >= STEADY && (dated === null || score > dated.score + 1e-9)) dated = own;
        if (heads === null || score > heads.score + 1e-9) heads = own;
      }
      const isOfNight = DAYS.test(guess.pattern) && proof.plausible > 0.9 && proof.days <= MOST_DAYS;
      if (isOfNight && (days === null || proof.coverage > days.guess.coverage)) days = own;
      if (kind === 'time' && guess.at === 'start' && (first === null || score > first.score + 1e-9)) first = own;
      if (best === null || score > best.score + 1e-9 || shorter) best = own;
    }
  }
  // Julian dates of one night are no counts, whatever their order: as counts, steps of minutes back go unnoticed.
  if (days !== null && best?.kind === 'elapsed' && days.guess.coverage >= STEADY * best.guess.coverage)
    return days.guess;
  // Line numbers are not a counter if there are complete dates above them, each later than the previous one.
  if (dated !== null && best?.kind === 'elapsed' && best.guess.at === 'anywhere' && best.guess.forward < STEADY)
    return dated.guess;
  if (best === null || best.score < MIN_COVERAGE / 2) return null;
  if (heads !== null && headsBlocks(heads.guess, best.guess, lines)) return heads.guess;
  if (first !== null && best.kind === 'time' && best.guess.at === 'anywhere' && headsNodes(lines)) return first.guess;
  const guess = { ...best.guess, pattern: plainCount(best.guess.pattern) };
  const single = withoutSecondClock(guess, lines);
  if (single !== guess) return single;
  return beforeSecondCount(guess, lines);
}

/** Numbers of the day are in another unit if they let a log of many lines be over in minutes, or begin by day. */
function isTooShort(pattern: string, { spanMs, firstMs }: Proof, lines: number): boolean {
  if (!/\{day-second/.test(pattern) || lines < MANY) return false;
  const ofDay = ((firstMs % DAY_MS) + DAY_MS) % DAY_MS;
  return spanMs < SHORT_MS || (pattern.includes('*') && ofDay > DAYLIGHT.fromMs && ofDay < DAYLIGHT.toMs);
}

function isHexadecimal(pattern: string): boolean {
  return pattern.includes('-hex');
}

/** How much a hexadecimal reading is worth: without letters among the first digits it is none. */
function hexadecimal(lines: readonly string[]): number {
  const lettered = lines.filter((line) => HEX_COUNT.test(line)).length;
  return lettered >= HEX_LETTERS * lines.length ? HEX_WORTH.sure : HEX_WORTH.unsure;
}

/** `19h21m40s`: of a length, the hours would be few. */
function isSpelt({ pattern }: Pick<StampGuess, 'pattern'>): boolean {
  return pattern.includes('{elapsed-spelt}');
}

function isNear({ firstMs }: Proof, stated: readonly number[]): boolean {
  return stated.some((dayMs) => Math.abs(firstMs - dayMs) < NEAR_MS);
}

/**
 * The possible orders of an ambiguous date, likeliest first: digits alone, or separated by hyphens, usually begin with
 * the year (as in ISO 8601), those separated by points or slashes with the day.
 */
function ordersOf(shape: string): string[] {
  const put = (a: string, b: string, c = '{c}'): string => shape.replace('{a}', a).replace('{b}', b).replace('{c}', c);
  if (shape.includes('{c}'))
    return /\{a\}-?\{b\}/.test(shape)
      ? [put('{year2}', '{month}', '{day}'), put('{day}', '{month}', '{year2}'), put('{month}', '{day}', '{year2}')]
      : [put('{day}', '{month}', '{year2}'), put('{year2}', '{month}', '{day}'), put('{month}', '{day}', '{year2}')];
  return shape.includes('{a}') ? [put('{day}', '{month}'), put('{month}', '{day}')] : [shape];
}
