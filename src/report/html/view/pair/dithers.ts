/** Results of the dithers, in figures. */
import { decimal, median, UNKNOWN, type DitherSpread, type TrainPointing } from '../../../../model/index.js';
import type { ViewContext } from '../context.js';
import { column, figures, words, type Row, type Table } from '../table.js';

/** Requested and actual sizes, neighbours, repeats, and whether the positions drift in one direction. */
export function ditherSizesTable({ night }: ViewContext): Table | null {
  const rows = (night.stars?.pointings ?? []).flatMap((one): Row[] =>
    one.dithers ? [sizesRow(one, one.dithers)] : [],
  );
  if (rows.length === 0) return null;
  return {
    caption:
      'Dithers as measured, medians in px of each train; asked: px of the guide camera. Drift: how far the positions ' +
      'wander one way, and their scatter about it',
    name: 'dither-sizes',
    columns: [
      column('Target'),
      column('Train'),
      column('Positions', 'figures'),
      column('Asked', 'figures'),
      column('Moved', 'figures'),
      column('Moved ″', 'figures'),
      column('To the nearest', 'figures'),
      column('Closest two', 'figures'),
      column('Repeats', 'figures'),
      column('Drift', 'figures'),
      column('Scatter', 'figures'),
      column('Times from'),
    ],
    rows,
  };
}

function sizesRow({ target, train, scaleArcsec, dithersBy }: TrainPointing, spread: DitherSpread): Row {
  const { places, steps, nearestPx, repeats, oneWay } = spread;
  const got = middle(steps.map(({ gotPx }) => gotPx));
  const asked = middle(steps.flatMap(({ askedPx }) => askedPx ?? []));
  return {
    cells: [
      words(target),
      words(train, { header: true }),
      figures(String(places.length)),
      figures(decimal(asked, 1)),
      figures(decimal(got, 1)),
      figures(got === null || scaleArcsec === null ? UNKNOWN : decimal(got * scaleArcsec, 1)),
      figures(decimal(middle(nearestPx), 1)),
      figures(decimal(nearestPx.length > 0 ? Math.min(...nearestPx) : null, 1)),
      figures(String(repeats.length)),
      figures(decimal(oneWay.trendPx, 1)),
      figures(decimal(oneWay.aroundPx, 1)),
      words(dithersBy === 'log' ? 'log' : 'stars'),
    ],
  };
}

/** The first frame after a dither compared with the others. */
export function settlingTable({ night }: ViewContext): Table | null {
  const rows = (night.stars?.pointings ?? []).flatMap(({ target, train, dithers }): Row[] => {
    const settling = dithers?.settling;
    if (!settling) return [];
    return [
      {
        cells: [
          words(target),
          words(train, { header: true }),
          figures(String(settling.dithers)),
          figures(decimal(settling.firstAwayPx, 2)),
          figures(decimal(settling.othersAwayPx, 2)),
          figures(decimal(settling.fwhmRatio, 3)),
          figures(decimal(settling.elongationRatio, 3)),
        ],
      },
    ];
  });
  if (rows.length === 0) return null;
  return {
    caption: 'Settling as seen in the stars: the first frame after a dither against the others up to the next',
    name: 'measured-settling',
    columns: [
      column('Target'),
      column('Train'),
      column('Dithers', 'figures'),
      column('First away px', 'figures'),
      column('Others away px', 'figures'),
      column('FWHM ratio', 'figures'),
      column('Elongation ratio', 'figures'),
    ],
    rows,
  };
}

function middle(values: readonly number[]): number | null {
  return values.length > 0 ? median(values) : null;
}
