import { listed, type NightTrend, type PairTrend, type Progress, type TrainTrend } from '../../../model/index.js';
import type { Trend, TrendSeries } from './trend.js';

const NO_PAIR = 'no night has stars of two trains on one field';

function ofNight(label: string, value: (night: NightTrend) => number | null): (progress: Progress) => TrendSeries[] {
  return ({ trends }) => [
    {
      label,
      values: trends.flatMap((night) => {
        const v = value(night);
        return v === null ? [] : [{ date: night.date, value: v }];
      }),
    },
  ];
}

function ofTrains(value: (train: TrainTrend) => number | null): (progress: Progress) => TrendSeries[] {
  return ({ trends, trains }) =>
    trains.map((id) => ({
      label: id,
      train: id,
      values: trends.flatMap((night) =>
        night.trains.flatMap((train) => {
          const v = train.train === id ? value(train) : null;
          return v === null ? [] : [{ date: night.date, value: v }];
        }),
      ),
    }));
}

/** Whether stars are known in arcseconds: then nights of records with pixels only are omitted. */
function hasScale({ trends }: Progress): boolean {
  return trends.some(({ trains }) => trains.some(({ starFwhmArcsec }) => starFwhmArcsec !== undefined));
}

/** One series per pair of trains, in the companion's colour. */
function ofPairs(value: (pair: PairTrend) => number | null): (progress: Progress) => TrendSeries[] {
  return ({ trends }) => {
    const named = new Map<string, PairTrend['trains']>();
    for (const { pairs } of trends) for (const { trains } of pairs) named.set(trains.join(' – '), trains);
    return [...named].map(([label, [, companion]], _i, all) => ({
      label,
      ...(all.length === 1 ? { short: companion } : {}),
      train: companion,
      values: trends.flatMap(({ date, pairs }) =>
        pairs.flatMap((pair) => {
          const v = pair.trains.join(' – ') === label ? value(pair) : null;
          return v === null ? [] : [{ date, value: v }];
        }),
      ),
    }));
  };
}

/** Nights on which a pair's alignment changed. */
function touched({ trends }: Progress): { date: string; what: string }[] {
  return trends.flatMap(({ date, pairs }) =>
    pairs.flatMap(({ trains, touched: changes }) =>
      changes.length > 0 ? [{ date, what: `${trains.join(' – ')} ${listed(changes)}` }] : [],
    ),
  );
}

/** Every trend of the page, in order. */
export const TRENDS: readonly Trend[] = [
  {
    id: 'efficiency',
    title: 'Efficiency',
    axis: 'kept ÷ first to last light, %',
    digits: 0,
    missing: 'no night has lights',
    series: ofNight('all trains', ({ efficiency }) => (efficiency === null ? null : efficiency * 100)),
  },
  {
    id: 'twin-gain',
    title: 'Twin gain',
    axis: 'all trains ÷ the better one',
    digits: 2,
    missing: 'no night has two trains',
    series: ofNight('twin gain', ({ twinGain }) => twinGain),
  },
  {
    id: 'dither-wait',
    title: 'Wait at a dither',
    axis: 'median per night, s',
    digits: 0,
    missing: 'no dither was recorded',
    series: ofTrains(({ ditherWaitMs }) => (ditherWaitMs === null ? null : ditherWaitMs / 1000)),
  },
  {
    id: 'guiding-rms',
    title: 'Guiding',
    axis: 'median RMS of a frame, ″',
    digits: 2,
    missing: 'no guiding was recorded',
    series: ofTrains(({ guidingRmsArcsec }) => guidingRmsArcsec),
  },
  {
    id: 'star-size',
    title: 'Star size',
    axis: (progress) => `${hasScale(progress) ? 'FWHM' : 'size'}, median per night, ${hasScale(progress) ? '″' : 'px'}`,
    digits: 2,
    missing: 'no star was measured, and no header gives a size',
    series: (progress) => {
      const isScaled = hasScale(progress);
      return ofTrains(({ starSize, starFwhmArcsec = null }) => (isScaled ? starFwhmArcsec : starSize))(progress);
    },
  },
  {
    id: 'pair-offset',
    title: 'Centres of the trains’ fields apart',
    axis: 'arcminutes',
    digits: 1,
    leastSpan: 2,
    missing: NO_PAIR,
    series: ofPairs(({ offsetArcsec }) => offsetArcsec / 60),
    marks: touched,
  },
  {
    id: 'pair-rotation',
    title: 'Cameras rotated against each other',
    axis: 'degrees',
    digits: 1,
    leastSpan: 1,
    missing: NO_PAIR,
    series: ofPairs(({ rotationDeg }) => rotationDeg),
    marks: touched,
  },
  {
    id: 'flexure',
    title: 'Drift of the companion against the pilot',
    axis: '″ per hour',
    digits: 1,
    leastSpan: 1,
    missing: NO_PAIR,
    series: ofPairs(({ flexureArcsecPerHour }) => flexureArcsecPerHour),
    marks: touched,
  },
];
