/** Star measurements in figures, with the error of one frame: by train, target and filter. */
import {
  decimal,
  groupBy,
  median,
  ownValue,
  sensorScaleArcsec,
  UNKNOWN,
  type FrameStars,
  type JudgedFrame,
  type Train,
} from '../../../model/index.js';
import type { ViewContext } from './context.js';
import { column, figures, screenOnly, words, type Row, type Table } from './table.js';

interface Measured {
  readonly light: JudgedFrame;
  readonly stars: FrameStars;
}

/** `null` if no star was measured. */
export function starTable(context: ViewContext): Table | null {
  const { night } = context;
  const measured = night.accounts.lights.flatMap((light): Measured[] => {
    const stars = ownValue(night.stars?.frames ?? {}, light.id);
    return stars === undefined ? [] : [{ light, stars }];
  });
  if (measured.length === 0) return null;
  const groups = groupBy(measured, ({ light: { train, target, filter } }) => JSON.stringify([train, target, filter]));
  return {
    caption: 'Medians of the lights, ± the standard error of one frame',
    name: 'star-figures',
    columns: [
      column('Train'),
      column('Target'),
      column('Filter'),
      column('Lights', 'figures'),
      column('FWHM', 'figures'),
      column('Half-flux radius px', 'figures', 'screen'),
      column('Elongation', 'figures'),
      column('Background ADU', 'figures'),
      column('Noise ADU', 'figures', 'screen'),
      column('Sky e⁻/s', 'figures'),
    ],
    rows: [...groups.values()].map((group) => rowOf(group, context)),
    note: 'Sky in electrons per second and pixel where the gain is known, less the pedestal stated in the header.',
  };
}

function rowOf(group: readonly Measured[], { night, palette }: ViewContext): Row {
  const [first] = group;
  const train: Train | undefined = night.gathered.trains.find(({ id }) => id === first?.light.train);
  const scale = train && sensorScaleArcsec(train);
  const cell = (
    value: (stars: FrameStars) => number | null | undefined,
    error: (stars: FrameStars) => number | null | undefined,
    digits: number,
    unit = '',
  ) => {
    const middle = middleOf(group, value);
    const spread = middleOf(group, error);
    if (middle === undefined) return figures(UNKNOWN);
    const around = spread === undefined ? '' : ` ± ${decimal(spread, digits)}`;
    return figures(`${decimal(middle, digits)}${around}${unit}`, middle);
  };
  const size = (px: number | null): number | null => (px === null ? null : px * (scale ?? 1));
  return {
    cells: [
      words(first?.light.train ?? UNKNOWN),
      words(first?.light.target ?? UNKNOWN),
      words(palette.filter(first?.light.filter).label),
      figures(`${group.length}`, group.length),
      cell(
        ({ fwhm }) => size(fwhm),
        ({ fwhmUncertainty }) => size(fwhmUncertainty),
        2,
        scale === undefined ? ' px' : '″',
      ),
      screenOnly(
        cell(
          ({ halfFlux }) => halfFlux,
          ({ uncertainties }) => uncertainties?.halfFlux,
          2,
        ),
      ),
      cell(
        ({ elongation }) => elongation,
        ({ elongationUncertainty }) => elongationUncertainty,
        3,
      ),
      cell(
        ({ background }) => background,
        ({ uncertainties }) => uncertainties?.background,
        1,
      ),
      screenOnly(
        cell(
          ({ noise }) => noise,
          ({ uncertainties }) => uncertainties?.noise,
          2,
        ),
      ),
      cell(
        ({ electronsPerSecond }) => electronsPerSecond?.background,
        () => null,
        3,
      ),
    ],
  };
}

function middleOf(
  group: readonly Measured[],
  value: (stars: FrameStars) => number | null | undefined,
): number | undefined {
  const known = group.flatMap(({ stars }) => value(stars) ?? []);
  return known.length === 0 ? undefined : median(known);
}
