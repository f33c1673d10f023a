import { counted, decimal, duration, groupBy, percent, UNKNOWN, type NightTrend } from '../../../model/index.js';
import { column, figures, words, type Table } from '../../html/view/table.js';
import type { ProgressContext } from '../context.js';
import { dateText, monthText } from '../dates.js';

/** One night's bars: heights in px from the bottom of the row, positions in per cent of its width. */
export interface CalendarNight {
  readonly x: string;
  readonly width: string;
  readonly title: string;
  readonly bars: readonly { readonly className: string; readonly y: string; readonly height: string }[];
  /** Hours kept on all trains, above the bars. */
  readonly hours: string;
  readonly middle: string;
  readonly hoursY: string;
}

export interface CalendarMonth {
  readonly label: string;
  readonly nights: readonly CalendarNight[];
}

export interface CalendarView {
  readonly label: string;
  /** Days of the month that are labelled above. */
  readonly days: readonly { readonly x: string; readonly text: string }[];
  readonly months: readonly CalendarMonth[];
  readonly table: Table;
  readonly height: number;
}

const DAYS = 31;
const HEIGHT = 48;
/** Space above the tallest bar for the night's hours. */
const HEAD = 13;
const HOUR = 3_600_000;
/** The longest night drawn, hours; longer ones reach the top of the row. */
const FULL_HOURS = 14;
const DAY_SHARE = 100 / DAYS;
/** Fraction of a day's width that its bars take. */
const BAR = 0.8;

function nightBars({ date, darkMs, usedMs, keptPerTrainMs, keptMs }: NightTrend): CalendarNight {
  const day = Number(date.slice(8));
  const bar = (className: string, ms: number) => {
    const height = Math.min(1, ms / HOUR / FULL_HOURS) * (HEIGHT - HEAD - 1);
    return { className, y: (HEIGHT - height).toFixed(1), height: height.toFixed(1) };
  };
  const bars = [
    ...(darkMs === null ? [] : [bar('dark', darkMs)]),
    bar('used', usedMs),
    bar('kept', Math.min(keptPerTrainMs, usedMs)),
  ];
  return {
    x: `${((day - 1) * DAY_SHARE).toFixed(3)}%`,
    width: `${(DAY_SHARE * BAR).toFixed(3)}%`,
    title:
      `${dateText(date)}: ${darkMs === null ? 'darkness not known' : `${duration(darkMs)} dark`}, ` +
      `${duration(usedMs)} used, ${duration(keptMs)} kept on all trains`,
    bars,
    hours: decimal(keptMs / HOUR, keptMs < 10 * HOUR ? 1 : 0),
    middle: `${((day - 1 + BAR / 2) * DAY_SHARE).toFixed(3)}%`,
    hoursY: (Math.min(...bars.map(({ y }) => Number(y))) - 3).toFixed(1),
  };
}

/** All months from the first to the last, including those without a night. */
function monthsBetween(first: string, last: string): string[] {
  const index = (month: string): number => Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1;
  return Array.from({ length: index(last) - index(first) + 1 }, (_, i) => {
    const at = index(first) + i;
    return `${Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}`;
  });
}

/** The calendar: a row per month, a position per day. */
export function calendarView({ progress }: ProgressContext): CalendarView {
  const { trends, months } = progress;
  const byMonth = groupBy(trends, (trend) => trend.date.slice(0, 7));
  const first = months[0]?.month ?? '1970-01';
  const last = months.at(-1)?.month ?? first;
  return {
    height: HEIGHT,
    label:
      `Calendar of ${counted(trends.length, 'night')}, one row per month: how much of each night was dark, ` +
      'used and kept. The months are in the table below.',
    days: [1, 5, 10, 15, 20, 25, 30].map((day) => ({
      x: `${((day - 1 + BAR / 2) * DAY_SHARE).toFixed(3)}%`,
      text: String(day),
    })),
    months: monthsBetween(first, last).map((month) => ({
      label: monthText(month),
      nights: (byMonth.get(month) ?? []).map(nightBars),
    })),
    table: {
      caption: 'Month by month',
      name: 'months',
      sortable: true,
      columns: [
        column('Month'),
        column('nights', 'figures'),
        column('dark', 'figures'),
        column('used', 'figures'),
        column('share', 'figures'),
        column('kept, all trains', 'figures'),
      ],
      rows: [...months].reverse().map(({ month, nights, darkMs, usedMs, keptMs }) => ({
        cells: [
          words(monthText(month), { header: true, value: month.replace('-', '') }),
          figures(String(nights), nights),
          figures(darkMs === 0 ? UNKNOWN : duration(darkMs), darkMs),
          figures(duration(usedMs), usedMs),
          figures(darkMs === 0 ? UNKNOWN : percent(usedMs / darkMs), darkMs === 0 ? null : usedMs / darkMs),
          figures(duration(keptMs), keptMs),
        ],
      })),
    },
  };
}
