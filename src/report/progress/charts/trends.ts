import type { NightTrend, Progress, TrainTrend } from '../../../model/index.js';
import type { Trend, TrendSeries } from './trend.js';

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

/** Every trend of the page, in its order. */
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
    axis: 'median of a night, s',
    digits: 0,
    missing: 'no dither is on record',
    series: ofTrains(({ ditherWaitMs }) => (ditherWaitMs === null ? null : ditherWaitMs / 1000)),
  },
  {
    id: 'guiding-rms',
    title: 'Guiding',
    axis: 'median RMS of a frame, ″',
    digits: 2,
    missing: 'no guiding is on record',
    series: ofTrains(({ guidingRmsArcsec }) => guidingRmsArcsec),
  },
  {
    id: 'star-size',
    title: 'Star size',
    axis: 'median of a night, px',
    digits: 2,
    missing: 'no header carries a star size',
    series: ofTrains(({ starSize }) => starSize),
  },
];
