import { COMPACT_ABC, DATE_MD, DATE_OF_YEAR, DATE_OF_YEAR2, NO_DIGIT_BEFORE } from './date-forms.js';
import { DATES } from './dates.js';
import { type Groups, Part, shape, type Shape } from './shape.js';

const FRACTION = String.raw`[.,]\d{3,9}`;
const ENDS = String.raw`(?![\d:])`;
const HAS_FRACTION = new Part(String.raw`\d${FRACTION}(?![\d:])`);
/** The parts of dates that a fraction may follow. */
const DAY = String.raw`(?<d>\d{1,2})`;
/** `2026 12 18`, of which only the fraction shows that it is a date. */
const DATE_BLANKS = String.raw`(?<y>(?:19|20)\d{2})(?<d1> )(?<m>[01]?\d)(?<s2> {1,2})(?<d>[0-3]?\d)`;
const OF_YEAR = String.raw`(?<y>20\d{2})(?<d1>[-/.: ]?)(?<doy>[0-3]\d{2})`;
/** Too few digits, or dates with a fraction of their own form. */
const LEFT_OUT: ReadonlySet<string> = new Set([DATE_MD, COMPACT_ABC, DATE_OF_YEAR, DATE_OF_YEAR2]);

type Dated = readonly [string, (groups: Groups) => string | null];

const FORMS: readonly Dated[] = [
  ...DATES.filter(([date]) => !LEFT_OUT.has(date)),
  [DATE_BLANKS, () => '{year} {month} {day}'],
  [OF_YEAR, ({ d1, doy }) => (Number(doy) > 0 && Number(doy) <= 366 ? `{year}${d1}{day-of-year}` : null)],
];

/**
 * Dates whose day has decimals, in every form of a date with a day of its own: `2026 Dec 18.82662`, `18.82662 Dec
 * 2026`, `2026-352.82662`.
 */
export const DECIMAL_DAYS: readonly Shape[] = FORMS.flatMap(([date, build]): Shape[] => {
  const at = date.indexOf(DAY);
  // A month of the year behind the day, or the year: the fraction stands inside the date.
  const inside = at < 0 || at + DAY.length === date.length ? date : date.replace(DAY, `${DAY}${FRACTION}`);
  const source = inside === date ? `${date}${FRACTION}` : inside;
  return [
    shape(
      `${NO_DIGIT_BEFORE}${source}${ENDS}`,
      (groups) => {
        const pattern = build(groups);
        if (pattern === null) return null;
        return inside === date ? endsInDay(pattern) : pattern.replace('{day}', '{day}{day-fraction}');
      },
      [HAS_FRACTION],
    ),
  ];
});

/** With a fraction at its end, unless it does not end in the day. */
function endsInDay(pattern: string): string | null {
  return /\{day(?:-of-year)?\}$/.test(pattern) ? `${pattern}{day-fraction}` : null;
}
