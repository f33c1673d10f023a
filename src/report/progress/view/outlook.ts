import {
  counted,
  decimal,
  percent,
  UNKNOWN,
  type Estimate,
  type Outlook,
  type Range,
  type Season,
  type TargetOutlook,
} from '../../../model/index.js';
import { column, figures, words, type Cell, type Row, type Table } from '../../html/view/table.js';
import { filterLabel, nameOf, type ProgressContext } from '../context.js';
import { dateText, monthText, spanText } from '../dates.js';

export interface OutlookView {
  readonly from: string;
  readonly pace: readonly string[];
  readonly estimates: Table | null;
  readonly months: Table | null;
  readonly assumptions: readonly string[];
}

/** `now, until 12 Jan 2027`; `not this season: back from 14 Jul 2027`. */
export function seasonText(season: Season): string {
  switch (season.state) {
    case 'now':
      return season.until === null ? 'all year' : `until ${dateText(season.until)}`;
    case 'later':
      return `not this season: back from ${dateText(season.from)}`;
    case 'never':
      return `never: ${decimal(season.bestHours, 1)} h per night at best`;
  }
}

/** `5 (3 to 9)`; without an upper end if one simulation in ten does not finish. */
export function nightsText(estimate: Estimate | null): string {
  if (estimate?.nights == null) return UNKNOWN;
  const { low, middle, high } = estimate.nights;
  return middle === null ? `${low} or more` : `${middle} (${low} to ${high ?? 'many'})`;
}

/** The evening on which it may be finished, and the range. */
function datesText(estimate: Estimate | null): Cell {
  if (estimate === null) return words('too few past nights to say');
  if (estimate.dates === null) return words('not within a year at this pace');
  const { low, middle, high } = estimate.dates;
  const range = high === null ? `from ${dateText(low)} on` : spanText(low, high);
  return words(middle === null ? 'more than a year' : dateText(middle), {
    value: (middle ?? '9999').replaceAll('-', ''),
    lines: [`8 in 10 futures: ${range}`],
  });
}

function rangeText(range: Range | null, digits: number): string {
  return range === null
    ? UNKNOWN
    : `${decimal(range.middle, digits)} (${decimal(range.low, digits)} to ${decimal(range.high, digits)})`;
}

function estimateRow(context: ProgressContext, target: TargetOutlook): Row {
  const wants = target.wants.map(
    (want) =>
      `${filterLabel(context, want.filter)}${want.train === null ? '' : ` on ${want.train}`} ` +
      `${decimal(want.hours, 1)}\u00a0h`,
  );
  return {
    cells: [
      words(nameOf(target.name), { header: true, anchor: context.anchorOf(target.name) }),
      figures(`${decimal(target.remainingHours, 1)} h`, target.remainingHours, { lines: [] }),
      words(wants.join(', ')),
      words(seasonText(target.season)),
      figures(nightsText(target.estimate), target.estimate?.nights?.middle ?? null),
      datesText(target.estimate),
      figures(
        target.season.state === 'never' || target.estimate === null
          ? UNKNOWN
          : percent(target.estimate.finishedThisSeason),
        target.estimate?.finishedThisSeason,
      ),
    ],
  };
}

function monthsTable({ targets }: Outlook): Table | null {
  const months = targets[0]?.months ?? [];
  if (months.length === 0) return null;
  return {
    caption: 'Hours per night above the limit in darkness, mean of each month; below: of them without the Moon',
    name: 'months-ahead',
    columns: [column('Target'), ...months.map(({ month }) => column(monthText(month), 'figures'))],
    rows: targets.map((target) => ({
      cells: [
        words(nameOf(target.name), { header: true }),
        ...target.months.map(({ up, moonless }) => figures(decimal(up, 1), up, { lines: [decimal(moonless, 1)] })),
      ],
    })),
  };
}

function paceLines({ pace }: Outlook): string[] {
  if (pace.nights === 0)
    return ['No past night with known darkness kept anything: there is nothing to base an ' + 'estimate on.'];
  return [
    `${counted(pace.nights, 'night')} used in ` +
      `${counted(pace.days, 'day')}` +
      (pace.nightsPerMonth === null ? '' : `, ${decimal(pace.nightsPerMonth, 1)} per month`) +
      '. Clear nights that went unused are not recorded, so this is the pace of the observatory, ' +
      'not of the weather.',
    `Kept hours per night, all trains together: ${rangeText(pace.keptHoursPerNight, 1)}. Kept hours ` +
      `per hour of darkness: ${rangeText(pace.keptPerDarkHour, 2)}. In brackets: the range of the middle 8 in 10 ` +
      'nights.',
  ];
}

function assumptionLines({ assumptions, site }: Outlook, share: boolean): string[] {
  const { sunBelowDeg, minimumAltitudeDeg, hasHorizon, isLimitKnown, worthHours, ...far } = assumptions;
  return [
    `Hours are computed for ` +
      `${share ? 'the centre of the ten-degree square that contains the site,' : (site ?? 'the site')} with ` +
      `the Sun below ${decimal(sunBelowDeg, 0)}° and the target above ` +
      (hasHorizon ? 'the local horizon' : `${decimal(minimumAltitudeDeg, 0)}°`) +
      (isLimitKnown ? '' : ' (no record names the limit: a default)') +
      '; weather is not part of them.',
    `A night is worthwhile for a target with ${decimal(worthHours, 0)} h or more (common practice, ` +
      'no source). The season ends with the last such night.',
    'Broadband is taken with the Moon below the horizon, narrowband also with the Moon up and ' +
      `${decimal(far.moonSeparationDeg, 0)}° or more away from a full Moon, deep red lines ` +
      `${decimal(far.deepRedSeparationDeg, 0)}°, less from a smaller one (common practice, no source).`,
    'Expected nights: a thousand futures, each put together from whole weeks of the past, drawn at ' +
      'random with replacement (circular block bootstrap), as if every night went to that target ' +
      'alone. The median is given, with the range that holds 8 in 10.',
  ];
}

/** The outlook's tables and their basis. */
export function outlookView(context: ProgressContext, outlook: Outlook): OutlookView {
  return {
    from: dateText(outlook.from),
    pace: paceLines(outlook),
    estimates:
      outlook.targets.length === 0
        ? null
        : {
            caption: 'What is still needed, and when it may be reached',
            name: 'estimates',
            sortable: true,
            columns: [
              column('Target'),
              column('still needed', 'figures'),
              column('Of it'),
              column('Season'),
              column('nights needed', 'figures'),
              column('Finished'),
              column('this season', 'figures'),
            ],
            rows: outlook.targets.map((target) => estimateRow(context, target)),
          },
    months: monthsTable(outlook),
    assumptions: assumptionLines(outlook, context.share),
  };
}
