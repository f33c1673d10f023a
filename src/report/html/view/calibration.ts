import { counted, decimal, percent } from '../../../model/index.js';
import { coverageOf, EXPOSURE_TOLERANCE, TEMPERATURE_TOLERANCE_C } from '../../figures/coverage.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Cell, type Table } from './table.js';

export interface CalibrationView {
  readonly table: Table | null;
  readonly summary: string;
  readonly rule: string;
}

const found = (count: number): Cell =>
  count > 0 ? figures(String(count), count) : figures('none', 0, { className: 'v-missing' });

/** Calibration frames matched with lights. */
export function calibrationView({ night, palette }: ViewContext): CalibrationView {
  const groups = coverageOf(night);
  const complete = groups.filter(
    (group) => group.darks > 0 && group.flats > 0 && (group.bias > 0 || group.darkFlats > 0),
  ).length;
  const rule = [
    `A dark matches in train, gain, offset, binning, temperature (within ${TEMPERATURE_TOLERANCE_C} °C) and ` +
      `exposure (within ${percent(EXPOSURE_TOLERANCE)});`,
    'a flat in train, filter and binning; a bias frame or a dark flat in train, gain, offset and binning.',
    'Only the session’s own folders were searched.',
  ].join(' ');
  if (groups.length === 0)
    return { table: null, summary: 'No light has a header, so no calibration frame can be matched.', rule };
  const some = complete === 0 ? 'none has' : complete === 1 ? '1 has' : `${complete} have`;
  return {
    rule,
    summary:
      `${counted(groups.length, 'kind')} of light; ${complete === groups.length ? 'all have' : some} darks, flats ` +
      'and bias frames in the folder.',
    table: {
      caption: 'Lights and their matching calibration frames',
      name: 'calibration',
      sortable: true,
      columns: [
        column('Train'),
        column('Filter'),
        column('Exposure s', 'figures'),
        column('Gain', 'figures'),
        column('Offset', 'figures'),
        column('Binning'),
        column('°C', 'figures'),
        column('Lights', 'figures'),
        column('Darks', 'figures'),
        column('Flats', 'figures'),
        column('Bias', 'figures'),
        column('Dark flats', 'figures'),
      ],
      rows: groups.map((group) => ({
        cells: [
          words(group.train, { header: true }),
          words(palette.filter(group.filter).label),
          figures(decimal(group.seconds, Number.isInteger(group.seconds) ? 0 : 1), group.seconds),
          figures(decimal(group.gain, 0), group.gain),
          figures(decimal(group.offset, 0), group.offset),
          words(group.binning ?? decimal(null, 0)),
          figures(decimal(group.temperatureC, 0), group.temperatureC),
          figures(String(group.lights), group.lights),
          found(group.darks),
          found(group.flats),
          found(group.bias),
          found(group.darkFlats),
        ],
      })),
    },
  };
}
