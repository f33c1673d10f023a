/**
 * Guiding samples as columns of text. Nothing is rounded: values with a few decimals are stored as integers, each as
 * its difference from the previous one; others as they are in memory.
 */
import type { GuidingSeries } from '../../model/index.js';
import type { Column, StoredColumns, StoredSeries } from './stored-series.js';

const MOST_DECIMALS = 6;

/** Writes a series. */
export function storeSeries({ atMs, raArcsec, decArcsec, snr, sources }: GuidingSeries): StoredSeries {
  return {
    atMs: storeColumn(atMs),
    raArcsec: storeColumn(raArcsec),
    decArcsec: storeColumn(decArcsec),
    snr: storeColumn(snr),
    sources,
  };
}

/** Reads columns that belong together. @throws RangeError when their lengths differ */
export function restoreSeries(stored: StoredColumns): Omit<GuidingSeries, 'sources'> {
  const series = {
    atMs: restoreColumn(stored.atMs),
    raArcsec: restoreColumn(stored.raArcsec),
    decArcsec: restoreColumn(stored.decArcsec),
    snr: restoreColumn(stored.snr),
  };
  const { length } = series.atMs;
  if (Object.values(series).some((values) => values.length !== length))
    throw new RangeError('the columns of the guiding samples are of different lengths');
  return series;
}

/** Writes a column. */
export function storeColumn(values: Float64Array): Column {
  if (values.every((v) => Number.isNaN(v))) return { unknown: values.length };
  const places = placesOf(values);
  if (places === null) {
    return { float64: Buffer.from(values.buffer, values.byteOffset, values.byteLength).toString('base64') };
  }
  const steps: number[] = [];
  let before = 0;
  for (const value of values) {
    const whole = Math.round(value * 10 ** places);
    steps.push(whole - before);
    before = whole;
  }
  return { decimals: places, steps };
}

/** Reads a column. */
export function restoreColumn(stored: Column): Float64Array {
  if ('unknown' in stored) return new Float64Array(stored.unknown).fill(NaN);
  if ('float64' in stored) {
    const bytes = Buffer.from(stored.float64, 'base64');
    const values = new Float64Array(Math.floor(bytes.length / 8));
    for (let i = 0; i < values.length; i++) values[i] = bytes.readDoubleLE(8 * i);
    return values;
  }
  const scale = 10 ** stored.decimals;
  let whole = 0;
  return Float64Array.from(stored.steps, (step) => (whole += step) / scale);
}

/** The number of decimals that represents every value exactly; `null` if there is none. */
function placesOf(values: Float64Array): number | null {
  for (let places = 0; places <= MOST_DECIMALS; places++) {
    const scale = 10 ** places;
    if (values.every((v) => Number.isSafeInteger(Math.round(v * scale)) && Object.is(Math.round(v * scale) / scale, v)))
      return places;
  }
  return null;
}
