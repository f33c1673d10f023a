import { groupBy } from '../../../../../model/index.js';
import { inUnit } from '../count-unit.js';
import { escapeBraces } from '../counting.js';
import type { StampGuess, TimeCells } from '../guess.js';
import type { HeadLine } from '../base-lines.js';
import { sideOfTitle } from '../../lexicon/sides.js';

import { noonIn, originsIn, type Origin } from './origins.js';

type Row = ReadonlyMap<string, string>;

/** Units of counts since a distant instant, s. */
const UNITS = [1e-9, 1e-7, 1e-6, 0.001, 0.01, 0.1, 1, 60, 3600, 86_400] as const;
/** What texts call the units. */
const NAMES: readonly (readonly [number, RegExp])[] = [
  [1e-7, /(?<!\d)100\s?ns/iu],
  [1e-9, /(?<![\d\s]\s?)ns(?!\p{L})|(?<!\p{L})nano/iu],
  [1e-6, /(?<!\p{L})(?:[µμu]s|mi[ck]ro)/iu],
  [0.001, /(?<!\p{L})(?:ms|mill?is)/iu],
  [0.1, /(?<!\p{L})(?:tenths?|zehntel|dixièmes?|décimas?|decimi|tienden?)(?!\p{L})/iu],
  [1, /(?<!\p{L})(?:s|sec|seconds?|sek|sekund\p{L}*|secondes?|segundos?|secondi|seconden|sekunti\p{L}*)(?!\p{L})|秒/iu],
  [60, /(?<!\p{L})(?:min|minutes?|minuten|minutos?|minuti|minut)(?!\p{L})|分/iu],
  [3600, /(?<!\p{L})(?:h|hours?|stunden|heures?|horas?|ore|uren|godzin\p{L}*|hodin\p{L}*)(?!\p{L})|時間|小时/iu],
  [86_400, /(?<!\p{L})(?:days?|tage|jours|d[ií]as|giorni|dagen|dni|dny|dagar|päiv\p{L}*)(?!\p{L})|日数|天/iu],
];

/** The unit that a text names before the instant, s; `null` if it names none or several. */
function unitIn(text: string): number | null {
  const before = text.slice(0, Math.max(0, text.search(/\d{4}/)));
  const found = NAMES.filter(([, name]) => name.test(before)).map(([unit]) => unit);
  return found.length === 1 ? (found[0] ?? null) : null;
}

const OF_DAYS: ReadonlySet<number> = new Set([Date.UTC(1899, 11, 30), Date.UTC(1858, 10, 17)]);
const SINCE_1970: ReadonlySet<number> = new Set([1, 0.001, 1e-6, 1e-9]);
/** Whole units beside a finer count: weeks, days, hours. */
const WHOLE = [604_800, 86_400, 3600] as const;
const DAY_MS = 86_400_000;
/** Years in which a log can have been written. */
const YEARS = { fromMs: Date.UTC(2000, 0, 1), toMs: Date.UTC(2060, 0, 1) } as const;
/** Counts since this long ago are no times since the log began, ms. */
const DISTANT_MS = 20 * DAY_MS;
/** Plausible duration of a night's log, ms. */
const NIGHT_MS = { from: 600_000, to: DAY_MS } as const;
const NEARLY_ALL = 0.98;
const MOST_WHOLE = 3;
const NUMBER = /^\d{1,20}(?:[.,]\d+)?$/;
const INTEGER = /^\d{1,6}$/;
const MIN_ROWS = 5;
/** Minimum fraction of distinct instants; several lines may share one. */
const FEW = 0.1;
/** A number before a line, and marks or a name before that; and the minimum fraction of lines that have it. */
const IN_FRONT = /^([^\p{L}\d+-]{0,3}(?:\p{L}{1,10}\s?[=:]\s?)?)(\d{1,20}(?:[.,]\d+)?)(?![\d.,:/-])/u;
const MOST_LINES = 0.5;
/** Rows written at their ends may state their begins. */
const FORWARD = 0.9;

/** A count, or the sum of two, that gives a night since a stated instant. */
interface Found {
  readonly pattern: string;
  readonly paths: readonly string[];
  readonly origin: Origin;
  readonly forward: number;
  /** Its first instant, UTC ms. */
  readonly firstMs: number;
}

/**
 * Counts since a distant instant that the head or the name of their column states, in the only unit in which they make
 * a night of a plausible year: alone, or as whole weeks or days beside what has passed of them. `null` if none do.
 *
 * @param heads lines that may state the instant
 */
export function farCountInCells(rows: readonly Row[], heads: readonly string[]): TimeCells | null {
  const paths = [...new Set(rows.flatMap((row) => [...row.keys()]))];
  const origins = [...originsIn([...paths, ...heads]), ...noonIn(heads)];
  if (origins.length === 0 || rows.length < MIN_ROWS) return null;
  const numeric = paths.filter((path) => isMostly(rows, path, NUMBER));
  const found = numeric.flatMap((path) => [
    ...origins.flatMap((origin) => alone(rows, path, origin)),
    ...wholeBeside(rows, numeric, path).flatMap((one) => origins.flatMap((origin) => summed(rows, one, path, origin))),
  ]);
  const best = onlyOne(found);
  return best === null ? null : { paths: best.paths, isFirst: false, stamp: guessOf(best) };
}

/** The same for the number before the lines of a text. */
export function farCountInText(lines: readonly HeadLine[], heads: readonly string[]): StampGuess | null {
  const origins = [...originsIn(heads), ...noonIn(heads)];
  if (origins.length === 0) return null;
  const read = lines.flatMap(({ text }) => {
    const [, before = '', count = ''] = IN_FRONT.exec(text) ?? [];
    return count === '' ? [] : [{ before, count: numberIn(count) }];
  });
  const [[before = '', own] = []] = [...groupBy(read, (one) => one.before)].sort((a, b) => b[1].length - a[1].length);
  if (own === undefined || own.length < MIN_ROWS || own.length < MOST_LINES * lines.length) return null;
  const counts = own.map(({ count }) => count);
  const found = origins.flatMap((origin) => inUnits(counts, `${escapeBraces(before)}{elapsed}`, [], origin));
  const best = onlyOne(found);
  return best === null ? null : guessOf(best);
}

function isMostly(rows: readonly Row[], path: string, form: RegExp): boolean {
  return rows.filter((row) => form.test(row.get(path) ?? '')).length >= NEARLY_ALL * rows.length;
}

function alone(rows: readonly Row[], path: string, origin: Origin): Found[] {
  return inUnits(
    rows.flatMap((row) => (NUMBER.test(row.get(path) ?? '') ? [numberIn(row.get(path))] : [])),
    '{elapsed}',
    [path],
    origin,
  );
}

function inUnits(counts: readonly number[], pattern: string, paths: readonly string[], origin: Origin): Found[] {
  const named = unitIn(origin.text);
  return UNITS.flatMap((unit) => {
    if (named !== null && unit !== named) return [];
    // Those since 1970, and the days of spreadsheets and modified Julian dates, have placeholders of their own.
    if (origin.ms === 0 && SINCE_1970.has(unit)) return [];
    if (unit === 86_400 && OF_DAYS.has(origin.ms)) return [];
    const times = counts.map((count) => origin.ms + count * unit * 1000);
    const forward = forwardOf(times, origin);
    return forward < FORWARD
      ? []
      : [{ pattern: inUnit(pattern, unit), paths, origin, forward, firstMs: times[0] ?? NaN }];
  });
}

/** Columns of few whole numbers that increase by one where the finer count begins anew, or never. */
function wholeBeside(rows: readonly Row[], numeric: readonly string[], fine: string): string[] {
  return numeric.filter((path) => {
    if (path === fine || !isMostly(rows, path, INTEGER)) return false;
    const values = [...new Set(rows.flatMap((row) => (row.has(path) ? [numberIn(row.get(path))] : [])))];
    return values.length <= MOST_WHOLE && values.every((value, i) => i === 0 || value === (values[i - 1] ?? NaN) + 1);
  });
}

function summed(rows: readonly Row[], whole: string, fine: string, origin: Origin): Found[] {
  const timed = rows.filter((row) => row.has(whole) && row.has(fine));
  return WHOLE.flatMap((wholeUnit) =>
    [1, 0.001, 60, 3600].flatMap((unit) => {
      const parts = timed.map((row) => numberIn(row.get(fine)) * unit);
      if (unit >= wholeUnit || parts.some((part) => !(part < wholeUnit))) return [];
      const times = timed.map(
        (row, i) => origin.ms + (numberIn(row.get(whole)) * wholeUnit + (parts[i] ?? NaN)) * 1000,
      );
      const forward = forwardOf(times, origin);
      const pattern = `{elapsed*${wholeUnit}} ${inUnit('{elapsed}', unit)}`;
      return forward < FORWARD ? [] : [{ pattern, paths: [whole, fine], origin, forward, firstMs: times[0] ?? NaN }];
    }),
  );
}

/** Nights begin so long after a noon, ms. */
const AFTER_NOON_MS = { from: 3 * 3_600_000, to: 15 * 3_600_000 } as const;

function isOfEvening(ms: number): boolean {
  return ms >= AFTER_NOON_MS.from && ms <= AFTER_NOON_MS.to;
}

/** Fraction of forward steps, 0 if these are not the instants of a night long after the origin. */
function forwardOf(times: readonly number[], origin: Origin): number {
  const [first, last] = [Math.min(...times), Math.max(...times)];
  if (new Set(times).size < Math.max(MIN_ROWS, FEW * times.length)) return 0;
  const isFar = origin.isNoon === true ? isOfEvening(first - origin.ms) : first - origin.ms > DISTANT_MS;
  if (!(first > YEARS.fromMs && last < YEARS.toMs && isFar)) return 0;
  if (last - first < NIGHT_MS.from || last - first > NIGHT_MS.to) return 0;
  return times.filter((ms, i) => i > 0 && ms >= (times[i - 1] ?? NaN) - 1000).length / (times.length - 1);
}

/**
 * The reading of the column that states begins, or else of the earliest; `null` if there is none, or if a number can be
 * read in more than one way.
 */
function onlyOne(found: readonly Found[]): Found | null {
  const [any, ...others] = found;
  if (
    any === undefined ||
    !others.every(({ pattern, origin }) => pattern === any.pattern && origin.ms === any.origin.ms)
  )
    return null;
  const begun = found.find(({ paths }) => sideOfTitle(paths.slice(-1)) === 'begin');
  return begun ?? found.reduce((best, one) => (one.firstMs < best.firstMs ? one : best));
}

function guessOf({ pattern, origin, forward }: Found): StampGuess {
  return {
    pattern,
    at: 'start',
    coverage: 1,
    forward,
    dayFirstAssumed: false,
    from: new Date(origin.ms).toISOString(),
  };
}

function numberIn(text = ''): number {
  return Number(text.replace(',', '.'));
}
