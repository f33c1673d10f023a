import { StampPattern } from '../../../time/stamp.js';
import type { TimeCells } from '../guess.js';
import { proofOf } from '../stamp-proof.js';

type Row = ReadonlyMap<string, string>;

/** The parts of a time that have a column each. */
type Part = 'year' | 'month' | 'day' | 'hour' | 'minute' | 'second';

const NEARLY_ALL = 0.98;
const MIN_ROWS = 8;
/** More columns of small numbers than a clock has are something else. */
const MOST_COLUMNS = 14;
const MOST_DAYS = 3;
const MIN_MINUTES = 15;
/** The names of columns of registers. */
const NAMES: Readonly<Record<Part, RegExp>> = {
  year: /^(?:y|yy|yyyy|yr|years?|jahr|an|ann[ée]e|a[ñn]o|anno|ano|jaar|rok|år|vuosi|év|год|年|년)$/iu,
  month:
    /^(?:mo|mon|mth|mm|months?|monat|mois|mes|mese|m[êe]s|maand|miesi[ąa]c|m[ěe]s[íi]c|måned|månad|kk|hó|мес\p{L}*|月|월)$/iu,
  day: /^(?:d|dd|days?|mday|dom|tag|jour|d[íi]a|giorno|dag|dzie[ńn]|den|pv|nap|день|日|일)$/iu,
  hour: /^(?:h|hh|hrs?|hours?|stunde|std|heure|hora|ora|uur|godz\p{L}*|hod\p{L}*|timme|time|tunti|óra|час|時|时|시)$/iu,
  minute: /^(?:m|mi|min|mn|minutes?|minute|minuto|minuut|minuta|minut|perc|мин\p{L}*|分|분)$/iu,
  second: /^(?:s|ss|secs?|seconds?|sek\p{L}*|secondes?|segundos?|secondi|second[eo]n|vt|mp|сек\p{L}*|秒|초)$/iu,
};

interface Column {
  readonly path: string;
  readonly numbers: readonly number[];
  readonly distinct: number;
  readonly most: number;
  readonly least: number;
  readonly isFourDigits: boolean;
}

/**
 * A clock whose parts have a column each, in any order: those of the only assignment in which the log runs forward and
 * every part has its range. Names of columns decide between equal ones; `null` if nothing does.
 *
 * @param common columns that nearly all rows have
 */
export function registersIn(rows: readonly Row[], common: readonly string[]): TimeCells | null {
  const columns = common.flatMap((path): Column[] => columnOf(rows, path));
  if (rows.length < MIN_ROWS || columns.length < 5 || columns.length > MOST_COLUMNS) return null;
  const hours = columns.filter(({ most, distinct }) => most < 48 && distinct >= 2);
  const fine = columns.filter(({ most, distinct }) => most < 60 && distinct >= MIN_MINUTES);
  const clocks = hours.flatMap((hour) =>
    fine.flatMap((minute) =>
      minute === hour
        ? []
        : fine.flatMap((second) => {
            if (second === minute || second === hour) return [];
            const share = forwardShare(hour, minute, second);
            return share >= NEARLY_ALL ? [{ share, parts: { hour, minute, second } }] : [];
          }),
    ),
  );
  // The day in place of the hour goes back once an hour only, which in a short log is seldom.
  const most = Math.max(...clocks.map(({ share }) => share));
  const clock = onlyOne(clocks.filter(({ share }) => share === most).map(({ parts }) => parts));
  if (clock === null) return null;
  const taken: readonly Column[] = Object.values(clock);
  const rest = columns.filter((column) => !taken.includes(column));
  const years = rest.filter(
    ({ isFourDigits, least, most, distinct }) => distinct <= 2 && isYear(isFourDigits, least, most),
  );
  const months = rest.filter(({ least, most, distinct }) => distinct <= 2 && least >= 1 && most <= 12);
  const days = rest.filter(({ least, most, distinct }) => distinct <= MOST_DAYS && least >= 1 && most <= 31);
  const dates = years.flatMap((year) =>
    months.flatMap((month) =>
      days.flatMap((day) => {
        if (month === year || day === month || day === year) return [];
        const found = provedBy(rows, { year, month, day, ...clock });
        return found === null ? [] : [{ year, month, day, found }];
      }),
    ),
  );
  const best = onlyOne(dates.map(({ year, month, day }) => ({ year, month, day })));
  return best === null
    ? null
    : (dates.find(({ year, month, day }) => year === best.year && month === best.month && day === best.day)?.found ??
        null);
}

function columnOf(rows: readonly Row[], path: string): Column[] {
  const texts = rows.map((row) => row.get(path) ?? '');
  if (texts.filter((text) => /^\d{1,4}$/.test(text)).length < NEARLY_ALL * rows.length) return [];
  const numbers = texts.map(Number);
  return [
    {
      path,
      numbers,
      distinct: new Set(numbers).size,
      most: Math.max(...numbers),
      least: Math.min(...numbers),
      isFourDigits: texts.every((text) => text.length === 4),
    },
  ];
}

function isYear(isFourDigits: boolean, least: number, most: number): boolean {
  return isFourDigits ? least >= 2000 && most < 2060 : least >= 10 && most < 60;
}

/** The share of steps that do not go back, but at midnight. */
function forwardShare(hour: Column, minute: Column, second: Column): number {
  const times = hour.numbers.map((h, i) => (h * 60 + (minute.numbers[i] ?? NaN)) * 60 + (second.numbers[i] ?? NaN));
  const steps = times.slice(1).map((time, i) => time - (times[i] ?? NaN));
  const good = steps.filter((step) => step >= -10 || step < -43_200);
  return good.length / Math.max(1, steps.length);
}

function provedBy(rows: readonly Row[], parts: Readonly<Record<Part, Column>>): TimeCells | null {
  const order: readonly Part[] = ['year', 'month', 'day', 'hour', 'minute', 'second'];
  const paths = order.map((part) => parts[part].path);
  const pattern = `{${parts.year.isFourDigits ? 'year' : 'year2'}} {month} {day} {hour} {minute} {second}`;
  const texts = rows.map((row) => paths.map((path) => row.get(path) ?? '').join(' '));
  const { coverage, forward, days } = proofOf(new StampPattern(pattern), 'start', texts);
  if (coverage < NEARLY_ALL || forward < NEARLY_ALL || days > MOST_DAYS) return null;
  return { paths, isFirst: false, stamp: { pattern, at: 'start', coverage, forward, dayFirstAssumed: false } };
}

/** The only assignment, or the only one with the most parts that their columns are named for. */
function onlyOne<T extends Readonly<Partial<Record<Part, Column>>>>(all: readonly T[]): T | null {
  const named = (one: T): number =>
    Object.entries(one).filter(([part, column]) =>
      NAMES[part as Part].test(
        column.path
          .replace(/\s*(?<!\p{L})(?:UTC?|TU|GMT|LT)$/u, '')
          .replace(/\.$/, '')
          .trim(),
      ),
    ).length;
  const [best, next] = [...all].sort((a, b) => named(b) - named(a));
  return best === undefined || (next !== undefined && named(next) === named(best)) ? null : best;
}
