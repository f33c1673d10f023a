import Papa from 'papaparse';
import { durationMs, fwhmPixels, type JudgedFrame } from '../../model/index.js';
import type { Format } from './format.js';

/** Columns with their units in their names; times are RFC 3339 in UTC. */
const COLUMNS: readonly (readonly [string, (frame: JudgedFrame) => string | number | null | undefined])[] = [
  ['file', (f) => f.file],
  ['frame', (f) => f.id],
  ['train', (f) => f.train],
  ['target', (f) => f.target],
  ['filter', (f) => f.filter],
  ['begin_utc', (f) => new Date(f.exposure.startMs).toISOString()],
  ['seconds', (f) => durationMs(f.exposure) / 1000],
  ['verdict', (f) => f.verdict],
  ['causes', (f) => f.causes.map((cause) => cause.kind).join(' ')],
  ['caused_by', (f) => [...new Set(f.causes.flatMap((cause) => cause.causedBy ?? []))].join(' ')],
  [
    'overlap_seconds',
    (f) => (f.causes.length === 0 ? null : Math.max(...f.causes.map((cause) => cause.overlapMs)) / 1000),
  ],
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

/** Four decimals at most: finer than anything measured here. */
function tidy(value: string | number | null | undefined): string | number {
  if (value === null || value === undefined) return '';
  return typeof value === 'number' ? Number(value.toFixed(4)) : value;
}

/** Every light as CSV (RFC 4180). Texts that a spreadsheet would run as a formula begin with an apostrophe. */
export const frames: Format = {
  id: 'frames',
  extension: 'csv',
  title: 'every light as a table',
  render: (night) =>
    Promise.resolve(
      `${Papa.unparse(
        {
          fields: COLUMNS.map(([name]) => name),
          data: night.accounts.lights.map((frame) => COLUMNS.map(([, value]) => tidy(value(frame)))),
        },
        { escapeFormulae: true, newline: '\r\n' },
      )}\r\n`,
    ),
};
