/** Tables of the effective integration. */
import {
  decimal,
  duration,
  durationRange,
  percent,
  percentRange,
  UNKNOWN,
  weighedOf,
  worthOfFrame,
  type FilterOrder,
  type JudgedFrame,
  type Night,
  type SubLength,
  type WeighedTotal,
  lightsOf,
} from '../../../../model/index.js';
import { solidArea } from '../../../design/area.js';
import type { ViewContext } from '../context.js';
import { frameName } from '../../../figures/frame-name.js';
import { column, figures, screenOnly, words, type Cell, type Row, type Table } from '../table.js';

const MINUTE = 60_000;

/** The basis of a total's figures, in a word or two. */
const SKY = { modelled: 'sky model', measured: 'sky levels', mixed: 'sky model and levels' } as const;
const TRANSPARENCY = { modelled: 'clear air', measured: 'star flux', mixed: 'clear air and star flux' } as const;
const NOISE = { 'read-noise': 'read noise', 'sky-limited': 'sky noise alone' } as const;

/** Per target, filter and train: the value of the kept frames. */
export function totalsTable(totals: readonly WeighedTotal[], { night, palette }: ViewContext): Table {
  return {
    caption: 'Effective integration of the kept frames; brighter: the sky, by the Moon',
    name: 'effective',
    sortable: true,
    columns: [
      column('Target'),
      column('Filter'),
      column('Train'),
      column('kept', 'figures'),
      column('effective', 'figures'),
      column('share', 'figures'),
      column('lost to the Moon', 'figures'),
      column('brighter by, mag', 'figures'),
      column('sky, mag/\u2060″²', 'figures'),
      column('as a plain mean', 'figures', 'screen'),
      column('From'),
    ],
    rows: totals.map(({ target, filter, train, ms, worth }): Row => {
      const kept = framesOf(night, target, filter, train);
      return {
        cells: [
          words(target, { header: true }),
          filterCell(filter, palette),
          words(train),
          time(ms.kept),
          figures(durationRange(worth.lowMs, worth.highMs), worth.effectiveMs),
          figures(percentRange(worth.lowMs / ms.kept, worth.highMs / ms.kept), worth.effectiveMs / ms.kept),
          time(worth.moonLossMs),
          spread(kept.map((f) => worthOfFrame(night, f)?.moonBrighteningMag)),
          spread(kept.map((f) => worthOfFrame(night, f)?.skyMagArcsec2)),
          screenOnly(time(worth.plainMeanMs)),
          words(`${SKY[worth.sky]}, ${TRANSPARENCY[worth.transparency]}, ${NOISE[worth.noise]}`),
        ],
      };
    }),
  };
}

/** The order of the filters if another would have lost less; `null` if none would. */
export function ordersTable(orders: readonly FilterOrder[], { palette }: ViewContext): Table | null {
  const saved = ({ filters }: FilterOrder): number =>
    filters.reduce((sum, place) => sum + place.lossMs - place.bestLossMs, 0);
  const costly = orders.filter((order) => order.lossMs >= MINUTE && saved(order) >= MINUTE);
  if (costly.length === 0) return null;
  return {
    caption:
      'Order of the filters: time lost to the Moon as it was, and in the order of the same filters that loses least',
    name: 'orders',
    groups: [
      { label: '', span: 4 },
      { label: 'open shutter lost', span: 2 },
      { label: 'brighter by, mag', span: 2 },
      { label: 'effective', span: 2 },
    ],
    columns: [
      column('Train'),
      column('Target'),
      column('Filter'),
      column('kept', 'figures'),
      ...['as it was', 'best', 'as it was', 'best', 'as it was', 'best'].map((label) => column(label, 'figures')),
    ],
    rows: costly.flatMap(({ train, target, filters }) =>
      filters.map(
        (place): Row => ({
          cells: [
            words(train, { header: true }),
            words(target),
            filterCell(place.filter, palette),
            time(place.exposureMs),
            time(place.lossMs),
            time(place.bestLossMs),
            figures(decimal(place.brighteningMag, 1), place.brighteningMag),
            figures(decimal(place.bestBrighteningMag, 1), place.bestBrighteningMag),
            time(place.effectiveMs),
            time(place.bestEffectiveMs),
          ],
        }),
      ),
    ),
  };
}

/** Frames that lower a plain mean; `null` for none. */
export function marginalTable(totals: readonly WeighedTotal[], { night, clock, palette }: ViewContext): Table | null {
  const frames = weighedOf(
    night,
    totals.flatMap(({ worth }) => worth.marginal),
  );
  if (frames.length === 0) return null;
  return {
    caption: 'Marginal frames: in a plain mean they cost more than they add; weighted, they still add',
    name: 'marginal',
    sortable: true,
    columns: [
      column('Frame'),
      column('Train'),
      column('Filter'),
      column('Begin', 'figures'),
      column('share', 'figures'),
      column('light arrived', 'figures'),
      column('sky, mag/\u2060″²', 'figures'),
      column('brighter by, mag', 'figures'),
      column('airmass', 'figures'),
    ],
    rows: frames.map(
      (frame): Row => ({
        cells: [
          words(frameName(frame), { anchor: `frame-${frame.id}`, header: true }),
          words(frame.train),
          filterCell(frame.filter ?? '', palette),
          figures(clock.seconds(frame.exposure.startMs), frame.exposure.startMs),
          figures(percent(frame.worth.share), frame.worth.share),
          figures(percent(frame.worth.transparency), frame.worth.transparency),
          figures(decimal(frame.worth.skyMagArcsec2, 1), frame.worth.skyMagArcsec2),
          figures(decimal(frame.worth.moonBrighteningMag, 1), frame.worth.moonBrighteningMag),
          figures(decimal(frame.sky?.airmass, 2), frame.sky?.airmass),
        ],
      }),
    ),
  };
}

/** Whether the subs had a good length; `null` if unknown. */
export function subsTable(totals: readonly WeighedTotal[], { palette }: ViewContext): Table | null {
  const rows = totals.flatMap(({ target, filter, train, worth }) =>
    worth.sub ? [subRow(target, filter, train, worth.sub, palette)] : [],
  );
  const tolerated = totals.flatMap(({ worth }) => worth.sub?.tolerated ?? [])[0];
  if (rows.length === 0) return null;
  return {
    caption: 'Length of the subs',
    name: 'subs',
    sortable: true,
    columns: [
      column('Target'),
      column('Filter'),
      column('Train'),
      column('sub s', 'figures'),
      column('sky and dark, e/s', 'figures'),
      column('read noise, e', 'figures'),
      column('extra noise', 'figures'),
      column(`long enough s (${percent(tolerated)} extra noise)`, 'figures'),
      column('lost frames', 'figures'),
      column('best length s', 'figures'),
      column('recoverable', 'figures'),
    ],
    rows,
  };
}

function subRow(target: string, filter: string, train: string, sub: SubLength, palette: ViewContext['palette']): Row {
  const background = sub.skyElectronsPerSecond + sub.darkElectronsPerSecond;
  return {
    cells: [
      words(target, { header: true }),
      filterCell(filter, palette),
      words(train),
      figures(decimal(sub.seconds, 0), sub.seconds),
      figures(Number(background.toPrecision(2)).toString(), background),
      figures(decimal(sub.readNoiseElectrons, 1), sub.readNoiseElectrons),
      figures(percent(sub.extraNoise), sub.extraNoise),
      figures(decimal(sub.enoughSeconds, sub.enoughSeconds < 10 ? 1 : 0), sub.enoughSeconds),
      figures(String(sub.lostFrames), sub.lostFrames),
      ...(sub.best.seconds === sub.seconds
        ? [figures('as it is'), figures(UNKNOWN)]
        : [figures(decimal(sub.best.seconds, 0), sub.best.seconds), time(sub.best.winMs)]),
    ],
  };
}

function framesOf(night: Night, target: string, filter: string, train: string): JudgedFrame[] {
  return lightsOf(night, train).filter(
    (f) => f.verdict === 'kept' && f.target === target && (f.filter ?? filter) === filter,
  );
}

/** `1.2`, or `0.3 to 1.2` if the values differ. */
function spread(values: readonly (number | undefined)[]): Cell {
  const known = values.filter((v): v is number => v !== undefined);
  if (known.length === 0) return figures(UNKNOWN);
  const [low, high] = [Math.min(...known), Math.max(...known)];
  const [from, to] = [decimal(low, 1), decimal(high, 1)];
  return figures(from === to ? from : `${from} to ${to}`, high);
}

function time(ms: number): Cell {
  return figures(duration(Math.max(0, ms)), ms);
}

function filterCell(filter: string, palette: ViewContext['palette']): Cell {
  const style = palette.filter(filter);
  return words(style.label, { swatch: solidArea(style.colour) });
}
