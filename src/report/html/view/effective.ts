import {
  counted,
  decimal,
  duration,
  durationRange,
  groupBy,
  listed,
  percent,
  UNKNOWN,
  weighedLights,
  weighedTotals,
  worthOfFrame,
  type FilterOrder,
  type JudgedFrame,
  type MeasureNote,
  type Night,
  type SubLength,
  WORTH_DOUBTS,
  type WeighedTotal,
  type WorthDoubt,
} from '../../../model/index.js';
import { solidArea } from '../../design/area.js';
import type { ViewContext } from './context.js';
import { frameName } from '../../figures/frame-name.js';
import { column, figures, screenOnly, words, type Cell, type Row, type Table } from './table.js';

export interface EffectiveView {
  /** What the night's effective integration rests on, in sentences. */
  readonly basis: readonly string[];
  readonly totals: Table | null;
  readonly orders: Table | null;
  readonly marginal: Table | null;
  readonly subs: Table | null;
  readonly limits: readonly string[];
  readonly formulas: readonly { readonly name: string; readonly text: string }[];
  /** Why there is nothing to show; empty when there is. */
  readonly missing: string;
}

const MINUTE = 60_000;

const LIMITS: readonly string[] = [
  'The sky is a model of a clear one, the Moon’s part good to some 20 % in V and to ±0.3 mag in other bands. A ' +
    'low Moon is overrated and jumps in at moonrise, a Moon within 7° of full is underrated, and there is a ' +
    'published step 10° from the Moon. It is no photometry.',
  'Cloud and haze are not in it. Where no star flux is measured, the air is taken to be clear; nothing is ' +
    'concluded about transparency from the brightness of the sky.',
  'Twilight and a site’s lamps are not in it either, but for the lamps’ part in the dark sky’s brightness.',
  'Without read noise and the sky in electrons, the sky is taken to be all the noise. Read noise hides part of ' +
    'what moonlight does, so that moonlit subs are then worth a little more than stated.',
  'Seeing is left out: it matters to stars and small things, not to wide nebulae.',
  'Effective times of different filters or trains measure different things and are never added up.',
];

const FORMULAS: EffectiveView['formulas'] = [
  {
    name: 'Effective share',
    text:
      'g = τ²·(b0 + d + R²/t0) ÷ (b + d + R²/t): sky b, dark current d, read noise R, exposure t; b0 dark sky at ' +
      'the zenith, t0 the reference sub. Sky-limited: τ²·b0/b. From the signal-to-noise ratio of a camera ' +
      '(Merline & Howell 1995), as surveys count effective time (Neilsen et al. 2016, Schlafly et al. 2023).',
  },
  {
    name: 'Transparency',
    text:
      'τ = 10^(−0.4·k·(X − 1)), air mass X after Kasten & Young 1989; k from the Palomar table, scaled to the ' +
      'site’s height.',
  },
  {
    name: 'Moonlight',
    text: 'Krisciunas & Schaefer 1991, with k of the filter; the dark sky away from the zenith by their equation 2.',
  },
  {
    name: 'Stack',
    text:
      'weighted by τ/σ²: Σ t·g. Plain mean of N frames: N²·t ÷ Σ(1/g). A frame lowers it when 1/g > (2 + ' +
      '1/N)·mean(1/g) of the others.',
  },
  { name: 'Extra noise', text: 'root of (1 + R²/(B·t)), less 1, with B of sky and dark current.' },
];

/** What a total's figures are reckoned from, in a word or two. */
const SKY = { modelled: 'sky model', measured: 'sky levels', mixed: 'sky model and levels' } as const;
const TRANSPARENCY = { modelled: 'clear air', measured: 'star flux', mixed: 'clear air and star flux' } as const;
const NOISE = { 'read-noise': 'read noise', 'sky-limited': 'sky noise alone' } as const;

function totalsTable(totals: readonly WeighedTotal[], { night, palette }: ViewContext): Table {
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
      column('sky, mag/″²', 'figures'),
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
          figures(
            `${twoDigits(worth.lowMs / ms.kept)}–${twoDigits(worth.highMs / ms.kept)} %`,
            worth.effectiveMs / ms.kept,
          ),
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

function ordersTable(orders: readonly FilterOrder[], { palette }: ViewContext): Table | null {
  const saved = ({ filters }: FilterOrder): number =>
    filters.reduce((sum, place) => sum + place.lossMs - place.bestLossMs, 0);
  const costly = orders.filter((order) => order.lossMs >= MINUTE && saved(order) >= MINUTE);
  if (costly.length === 0) return null;
  return {
    caption:
      'Order of the filters: what the Moon took as it was, and in the order of the same filters that loses least',
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

function marginalTable(totals: readonly WeighedTotal[], { night, clock, palette }: ViewContext): Table | null {
  const byId = new Map(weighedLights(night).map((frame) => [frame.id, frame]));
  const frames = totals.flatMap(({ worth }) => worth.marginal.flatMap((id) => byId.get(id) ?? []));
  if (frames.length === 0) return null;
  return {
    caption: 'Marginal frames: in a plain mean they take more than they bring; weighted they still add',
    name: 'marginal',
    sortable: true,
    columns: [
      column('Frame'),
      column('Train'),
      column('Filter'),
      column('Begin', 'figures'),
      column('share', 'figures'),
      column('light arrived', 'figures'),
      column('sky, mag/″²', 'figures'),
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

function subsTable(totals: readonly WeighedTotal[], { palette }: ViewContext): Table | null {
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
      column(`${percent(tolerated)} at s`, 'figures'),
      column('lost frames', 'figures'),
      column('better at s', 'figures'),
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

/** Why an effective time is a range. */
const DOUBTS: Readonly<Record<WorthDoubt, string>> = {
  'clear-air': 'the air is taken to be clear, and haze that nobody notices takes up to 0.2 mag',
  'clear-nights': 'the clearest frames of this night are some 0.05 mag from those of the clearest night',
  'moon-model': 'moonlight is modelled, to 20 % in V and 0.3 mag in other bands',
  'sky-of-nights': 'a moonless sky differs by some 0.2 mag from night to night',
};

/** A share in per cent, to two digits. */
function twoDigits(share: number): string {
  return String(Number((100 * share).toPrecision(2)));
}

const MEASURES: Readonly<Record<MeasureNote['measure'], string>> = {
  level: 'background levels',
  flux: 'star fluxes',
  'star-count': 'star counts',
};

function basis(night: Night): string[] {
  const { worth } = night;
  if (!worth) return [];
  const sky =
    `Dark sky at the zenith: ${decimal(worth.darkSkyMagArcsec2, 1)} mag per square arcsecond, ` +
    `${worth.darkSkyFrom === 'rig-file' ? 'from the rig file' : 'assumed; give darkSky in the rig file'}.`;
  const measures = [
    ...groupBy(worth.measures, (note) => JSON.stringify([note.measure, note.used, note.how])).values(),
  ].map((notes) => measureSentence(notes));
  const lacks = [
    ...groupBy(
      worth.noises.filter((note) => note.missing.length > 0),
      (note) => note.train,
    ),
  ].map(([train, notes]) => ({ train, what: listed([...new Set(notes.flatMap((note) => note.missing))]) }));
  const lacking = [...groupBy(lacks, ({ what }) => what)].map(
    ([what, those]) =>
      `${listed(those.map(({ train }) => train))}: the sky is taken to be all the noise; for read noise the ` +
      `rig file would have to give ${what}.`,
  );
  const assumed = worth.noises.filter((note) => note.assumedBand);
  const doubts = WORTH_DOUBTS.filter((doubt) => weighedTotals(night).some((t) => t.worth.doubts.includes(doubt)));
  return [
    `Counted in subs of ${decimal(worth.referenceMs / 1000, 0)} s under the moonless sky at the zenith: the ` +
      'same for all trains, filters and ' +
      'nights' +
      (worth.referenceFrom === 'rig-file' ? ', by the rig file' : '; referenceSub in the rig file sets another') +
      '.',
    ...(doubts.length > 0 ? [`Shown as a range, for ${listed(doubts.map((doubt) => DOUBTS[doubt]))}.`] : []),
    sky,
    ...(worth.measures.some((note) => note.measure === 'level')
      ? []
      : ['No background level was measured: the sky is the model’s, good to ±0.3 mag.']),
    ...(worth.measures.some((note) => note.measure === 'flux')
      ? []
      : [
          'No star flux was measured: the air is taken to be clear, and cloud or haze would make the effective ' +
            'times shorter.',
        ]),
    ...measures,
    ...lacking,
    ...(assumed.length > 0
      ? [
          'The band of ' +
            listed([
              ...new Set(assumed.map((note) => (note.filter === '' ? 'frames without a filter' : note.filter))),
            ]) +
            ' ' +
            'is not known, and V was taken; give its wavelength in the rig file.',
        ]
      : []),
  ];
}

function measureSentence(notes: readonly MeasureNote[]): string {
  const [first] = notes;
  if (!first) return '';
  const whose = listed(
    [...groupBy(notes, (note) => note.train)].map(
      ([train, own]) => `${train} ${own.map((note) => note.filter).join(' ')}`,
    ),
  );
  const frames = counted(
    notes.reduce((sum, note) => sum + note.frames, 0),
    'frame',
  );
  return (
    `${whose}: ${MEASURES[first.measure]} of ${frames} ${first.used ? 'were used' : 'were not used'}, ` +
    `${first.how}.`
  );
}

function framesOf(night: Night, target: string, filter: string, train: string): JudgedFrame[] {
  return night.accounts.lights.filter(
    (f) => f.verdict === 'kept' && f.target === target && f.train === train && (f.filter ?? filter) === filter,
  );
}

/** `1.2`, or `0.3 to 1.2` where the values differ. */
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

/** What the kept frames were worth, what moonlight cost, and whether the subs were of a good length. */
export function effectiveView(context: ViewContext): EffectiveView {
  const { night } = context;
  const totals = weighedTotals(night);
  const missing =
    totals.length > 0
      ? ''
      : night.gathered.site === null
        ? 'The site is not known: what the frames were worth cannot be told.'
        : 'No kept frame of a target whose place is known.';
  return {
    missing,
    basis: basis(night),
    totals: totals.length === 0 ? null : totalsTable(totals, context),
    orders: ordersTable(night.worth?.orders ?? [], context),
    marginal: marginalTable(totals, context),
    subs: subsTable(totals, context),
    limits: LIMITS,
    formulas: FORMULAS,
  };
}
