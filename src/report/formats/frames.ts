import {
  durationMs,
  extended,
  fwhmPixels,
  ownValue,
  sensorScaleArcsec,
  type FrameStars,
  type JudgedFrame,
  type Night,
} from '../../model/index.js';
import { stackWeights } from '../figures/stack-weights.js';
import { csvText } from './csv-text.js';
import type { Format } from './format.js';

/** A light with what other parts of the night know about it. */
interface Row extends JudgedFrame {
  readonly stars: FrameStars | undefined;
  readonly weight: number | undefined;
  readonly sensorScaleArcsec: number | undefined;
}

/** Columns with their units in their names; times are RFC 3339 in UTC. */
const COLUMNS: readonly (readonly [string, (frame: Row) => string | number | null | undefined])[] = [
  ['file', (f) => f.file],
  ['written', (f) => (f.file === undefined ? 'no' : 'yes')],
  ['frame', (f) => f.id],
  ['train', (f) => f.train],
  ['target', (f) => f.target],
  ['filter', (f) => f.filter],
  ['begin_utc', (f) => new Date(f.exposure.startMs).toISOString()],
  ['seconds', (f) => durationMs(f.exposure) / 1000],
  ['verdict', (f) => f.verdict],
  ['causes', (f) => f.causes.map((cause) => cause.kind).join(' ')],
  ['judged_by', (f) => [...new Set(f.causes.map((cause) => cause.by))].join(' ')],
  ['evidence', (f) => f.causes.map((cause) => cause.evidence).join('; ')],
  ['cleared', (f) => f.cleared.map(({ kind, by, evidence }) => `${kind} by ${by}: ${evidence}`).join('; ')],
  ['caused_by', (f) => [...new Set(f.causes.flatMap((cause) => cause.causedBy ?? []))].join(' ')],
  [
    'overlap_seconds',
    (f) => (f.causes.length === 0 ? null : Math.max(...f.causes.map((cause) => cause.overlapMs)) / 1000),
  ],
  ['weight', (f) => f.weight],
  ['fwhm_px', (f) => f.stars?.fwhm],
  ['fwhm_arcsec', (f) => arcsec(f.stars?.fwhm, f.sensorScaleArcsec)],
  ['elongation', (f) => f.stars?.elongation],
  ['stars', (f) => f.stars?.count],
  ['flux', (f) => f.stars?.flux],
  ['background_adu', (f) => f.stars?.background ?? f.header?.backgroundAdu],
  ['noise_adu', (f) => f.stars?.noise],
  ['altitude_deg', (f) => f.sky?.altitudeDeg],
  ['azimuth_deg', (f) => f.sky?.azimuthDeg],
  ['airmass', (f) => f.sky?.airmass],
  ['moon_separation_deg', (f) => f.sky?.moonSeparationDeg],
  ['moon_altitude_deg', (f) => f.sky?.moonAltitudeDeg],
  ['guiding_rms_arcsec', (f) => f.guiding?.totalRmsArcsec],
  ['star_fwhm_pixels', (f) => fwhmPixels(f.header)],
  ['sensor_temperature_c', (f) => f.header?.sensorTemperatureC],
  ['focus_position', (f) => f.header?.focusPosition],
];

function arcsec(pixels: number | null | undefined, scale: number | undefined): number | null {
  return pixels === null || pixels === undefined || scale === undefined ? null : pixels * scale;
}

function rowsOf(night: Night): Row[] {
  const weights = stackWeights(night);
  const scales = new Map(night.gathered.trains.map((train) => [train.id, sensorScaleArcsec(train)]));
  return night.accounts.lights.map((light) =>
    extended(light, {
      stars: ownValue(night.stars?.frames, light.id),
      weight: weights.get(light.id),
      sensorScaleArcsec: scales.get(light.train),
    }),
  );
}

/** Four decimals at most: finer than anything measured here. */
function tidy(value: string | number | null | undefined): string | number {
  if (value === null || value === undefined) return '';
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toFixed(4)) : value;
}

/** Every light as CSV. */
export const frames: Format = {
  id: 'frames',
  extension: 'csv',
  title: 'every light as a table',
  render: (night) =>
    Promise.resolve(
      csvText([
        COLUMNS.map(([name]) => name),
        ...rowsOf(night).map((frame) => COLUMNS.map(([, value]) => tidy(value(frame)))),
      ]),
    ),
};
