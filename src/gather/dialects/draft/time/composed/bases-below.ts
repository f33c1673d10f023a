import { groupBy } from '../../../../../model/index.js';
import type { CountedLine } from '../base-choice.js';
import { ZERO } from '../base-count.js';
import type { BaseLine } from '../base-lines.js';
import { instant } from '../night-evidence.js';
import { isOtherDate } from '../other-date.js';
import type { LineSection } from '../../report.js';

/** A counter goes back by more than this only where it restarts. */
const RESTART_MS = 60_000;
/** Lines that tie a count to an instant agree on the zero of the counter to this, ms. */
const AGREE_MS = 3000;
/** What a line says that sets or reads a clock. */
const CLOCK =
  /(?<!\p{L})(?:clock|sync\p{L}*|time is|now|it is|utc?|gmt|ntp|gps|real time|uhr|zeit|heure|horloge|hora|reloj|ora|orologio|rel[oó]gio|klok|tijd|czas|zegar|čas|hodin\p{L}*|klocka|время|часы)(?!\p{L})|時刻|時計|时间|时钟|시각/iu;

/**
 * Bases of which the first stands below counts that it is the base of as well: those continue past it. Unchanged where
 * the counter begins anew there, or where another base stands above.
 */
export function ofLinesAbove(bases: readonly BaseLine[], counts: readonly CountedLine[]): readonly BaseLine[] {
  const [base, ...others] = bases;
  const begin = counts[0]?.line ?? Infinity;
  if (base === undefined || 'file' in base.section || others.length > 0 || base.line.number <= begin) return bases;
  return isContinued(base, counts) && (hasCount(base.section) || isOfZero(base.line.text, counts))
    ? [asAbove(base, base.section)]
    : [];
}

/**
 * The one line, or lines that agree, with an instant behind a count of its own: that ties the counter of the whole log
 * to it. Empty if there is none, if the counter restarts, or if nothing says that it is the time of the line.
 *
 * @param stated stamped lines that state an instant, without their stamps
 */
export function tiedOnce(stated: readonly BaseLine[], counts: readonly CountedLine[]): readonly BaseLine[] {
  const countOf = new Map(counts.map(({ line, ms }) => [line, ms] as const));
  const tied = stated.flatMap((base) => {
    const { section, line, stamp, hasDay, isMidnight } = base;
    const count = countOf.get(line.number);
    if ('file' in section || !hasDay || isMidnight || count === undefined || isOtherDate(line.text)) return [];
    return [{ base, section, zeroMs: instant(section.base, line.text.slice(stamp.start)) - count }];
  });
  if (tied.length === 0 || counts.some(({ ms }, i) => ms < (counts[i - 1]?.ms ?? ms) - RESTART_MS)) return [];
  for (const own of groupBy(tied, ({ section }) => section.begin).values()) {
    const [first] = own;
    if (first === undefined || !CLOCK.test(first.base.line.text)) continue;
    if (own.some(({ zeroMs }) => !(Math.abs(zeroMs - first.zeroMs) <= AGREE_MS))) continue;
    return [asAbove(first.base, { ...first.section, sync: true })];
  }
  return [];
}

function hasCount({ sync, begin }: LineSection): boolean {
  return sync === true || begin.includes('(?<elapsed>');
}

/** Whether a line without a count is about the zero of the counter: its start, noughts, the end that is counted to. */
function isOfZero(text: string, counts: readonly CountedLine[]): boolean {
  return ZERO.test(text) || NOUGHTS.test(text) || (counts[0]?.ms ?? 0) < 0;
}

const NOUGHTS = /(?<![\d.,:])0+(?![\d.,:])/;

/**
 * Whether times of day are counts after all: a line that says what time it is states another one than its own, and no
 * other zone's.
 *
 * @param stated stamped lines that state an instant, without their stamps
 */
export function areCounts(stated: readonly BaseLine[], counts: readonly CountedLine[]): boolean {
  const ofDay = new Map(counts.map(({ line, ms }) => [line, ms] as const));
  return stated.some(({ section, line, stamp, hasDay, isMidnight }) => {
    const own = ofDay.get(line.number);
    if ('file' in section || !hasDay || isMidnight || own === undefined || !CLOCK.test(line.text)) return false;
    const away = instant(section.base, line.text.slice(stamp.start)) - own;
    return Math.abs(away - Math.round(away / QUARTER_MS) * QUARTER_MS) > AGREE_MS;
  });
}

const QUARTER_MS = 900_000;

function asAbove(base: BaseLine, section: LineSection): BaseLine {
  return { ...base, section: { ...section, above: true } };
}

/** Whether the counter does not begin anew up to the line behind it. */
function isContinued({ line }: BaseLine, counts: readonly CountedLine[]): boolean {
  const next = counts.findIndex((one) => one.line > line.number);
  const upTo = counts.slice(0, next < 0 ? counts.length : next + 1);
  return upTo.every(({ ms }, i) => ms >= (upTo[i - 1]?.ms ?? ms) - RESTART_MS);
}
