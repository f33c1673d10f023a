import type { StampPlace } from '../../time/stamp.js';
import { isNoBareTime } from './bare-minutes.js';
import type { StampGuess } from './guess.js';
import { takesMinutesForHours } from './no-hours.js';
import { numbersLines } from './of-day.js';
import { atTheEnd, inFrontOrAnywhere, MIN_COVERAGE, shapesIn } from './stamp-candidates.js';
import { ORDINAL } from './ordinal-days.js';
import type { Proof } from './stamp-proof.js';
import { withoutSecondClock } from './same-instant.js';
import { beforeSecondCount } from './two-stamps.js';

/** Steps of elapsed times that go forward. */
const MIN_FORWARD = 0.9;
/** Days that a log goes over. */
const MOST_DAYS = 10;
/** Lines that end in their stamp, of all, at least. */
const AT_END = 0.7;
/** A night that the head states begins within this of its first line, and speaks for the order of the date. */
const NEAR_MS = 2 * 86_400_000;
const AS_STATED = 1.1;
const DAY_MS = 86_400_000;
const APART_MS = 20 * DAY_MS;
/** Nights begin after this by the clock of any place. */
const EVENING_MS = 15 * 3_600_000;
/** Stamps with their date that go on without fail, and as many of them. */
const STEADY = 0.99;
const MANY = 20;
const TIME = /\d{1,2}:\d{2}:\d{2}/;
const HEAD_LINES = 20;
const CLOCK = /^\W{0,3}\d{1,2}:\d{2}:\d{2}/;
/** A reading that holds the date says more than one that does not, and anything more than a bare number. */
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
/** A stamp stands in front, or else has its place at the end, rather than anywhere. */
const PLACE = { start: 1, end: 0.98, anywhere: 0.97 } as const;

interface Rated {
  readonly guess: StampGuess;
  readonly score: number;
  readonly spanMs: number;
  readonly kind: keyof typeof WORTH;
}

/**
 * The time pattern that reads the lines of a log best, each candidate tried on the lines themselves: it must read
 * many of them, its times must run forward and fall into plausible years. `null` when none does.
 *
 * @param stated days that the head or the file's name states without any doubt, UTC midnights in ms
 * @param places where in their lines stamps may stand
 * @param hasBase some line states what elapsed times would count from; without one, no count is taken for a time
 */
export function guessStamp(
  lines: readonly string[],
  hasBase: boolean,
  stated: readonly number[] = [],
  places: readonly StampPlace[] = ['start', 'end', 'anywhere'],
): StampGuess | null {
  let best: Rated | null = null;
  let dated: Rated | null = null;
  const firstTime = CLOCK.test(lines.slice(0, HEAD_LINES).find((line) => TIME.test(line)) ?? '');
  for (const [shape, place, around] of shapesIn(lines, hasBase)) {
    const candidates = place === 'end' ? atTheEnd : inFrontOrAnywhere;
    const orders = ordersOf(shape).flatMap((pattern) => candidates(pattern, around, lines));
    const likely = orders.filter(({ proof }) => proof.forward > 0.9 && proof.plausible > 0.9);
    const shortest = Math.min(...likely.map(({ proof }) => proof.spanMs).filter((ms) => ms > 0));
    // A night that begins on one day and ends months later has the order of its dates wrong.
    const valid = new Set(
      likely.filter(({ proof }) => proof.spanMs < APART_MS || proof.spanMs <= 2 * shortest).map(({ order }) => order),
    );
    for (const { guess, proof, kind } of orders) {
      if (!places.includes(guess.at)) continue;
      // A column of measured values is no clock.
      if (kind === 'elapsed' && proof.forward < MIN_FORWARD) continue;
      // A clock that stands in the evening at first is one of the day, in whatever order its lines are.
      if (kind === 'elapsed' && proof.firstMs > EVENING_MS && proof.firstMs < DAY_MS && firstTime) continue;
      // A count of lines in front of a time of day is no day of the year.
      if (guess.pattern.includes('{day-of-year}') && proof.days > MOST_DAYS) continue;
      if (isNoBareTime(guess.pattern, guess.at, lines, proof)) continue;
      // Nor is another day than that which the head states.
      if (ORDINAL.test(guess.pattern) && stated.length > 0 && !isNear(proof, stated)) continue;
      if (takesMinutesForHours(guess.pattern, guess.at, lines)) continue;
      // Numbers of lines behind a date are no seconds of the day.
      if (numbersLines(guess.pattern, lines)) continue;
      // Times at the ends of a few lines are what these lines state.
      if (place === 'end' && proof.coverage < AT_END) continue;
      const score =
        proof.coverage *
        proof.forward ** 3 *
        proof.plausible *
        WORTH[kind] *
        PLACE[guess.at] *
        (isNear(proof, stated) ? AS_STATED : 1);
      const dayFirstAssumed = shape.includes('{a}') && valid.size > 1;
      // Of two orders of a date the one in which the log spans less: nights follow each other by days, not by months.
      const shorter =
        best !== null && Math.abs(score - best.score) < 1e-6 && proof.spanMs > 0 && proof.spanMs < 0.5 * best.spanMs;
      const own = {
        guess: { ...guess, dayFirstAssumed, coverage: proof.coverage, forward: proof.forward },
        score,
        spanMs: proof.spanMs,
        kind,
      };
      const isHeading = (kind === 'date-time' || kind === 'epoch') && guess.at === 'start' && proof.plausible > 0.9;
      if (isHeading && proof.forward >= STEADY && proof.coverage * lines.length >= MANY)
        if (dated === null || score > dated.score + 1e-9) dated = own;
      if (best === null || score > best.score + 1e-9 || shorter) best = own;
    }
  }
  // Numbers of the lines below are no count where whole dates stand above them, each later than the one before.
  if (dated !== null && best?.kind === 'elapsed' && best.guess.at === 'anywhere' && best.guess.forward < STEADY)
    return dated.guess;
  if (best === null || best.score < MIN_COVERAGE / 2) return null;
  const single = withoutSecondClock(best.guess, lines);
  if (single !== best.guess) return single;
  return beforeSecondCount(best.guess, lines);
}

function isNear({ firstMs }: Proof, stated: readonly number[]): boolean {
  return stated.some((dayMs) => Math.abs(firstMs - dayMs) < NEAR_MS);
}

/**
 * The orders in which the parts of an undecided date can be read, the likeliest first: digits alone, or set apart by
 * hyphens, mostly begin with the year (as in ISO 8601), those set apart by points or slashes with the day.
 */
function ordersOf(shape: string): string[] {
  const put = (a: string, b: string, c = '{c}'): string => shape.replace('{a}', a).replace('{b}', b).replace('{c}', c);
  if (shape.includes('{c}'))
    return /\{a\}-?\{b\}/.test(shape)
      ? [put('{year2}', '{month}', '{day}'), put('{day}', '{month}', '{year2}'), put('{month}', '{day}', '{year2}')]
      : [put('{day}', '{month}', '{year2}'), put('{year2}', '{month}', '{day}'), put('{month}', '{day}', '{year2}')];
  return shape.includes('{a}') ? [put('{day}', '{month}'), put('{month}', '{day}')] : [shape];
}
