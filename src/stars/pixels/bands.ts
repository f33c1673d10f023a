/** Which rows of a frame are read: strips spread over it, or all of it in overlapping bands. */
import type { StarReading } from '../../model/index.js';

/** Stored samples: 16-bit pixels as they are, all others as their values. */
export type Samples = Int16Array | Float32Array;

/** Rows `[first, end)` are held; stars whose brightest pixel lies in rows `[from, to)` belong to this band. */
export interface BandSpan {
  readonly first: number;
  readonly end: number;
  readonly from: number;
  readonly to: number;
}

/** Rows of pixels, `(end − first) × width` samples. Valid until the next band is asked for. */
export interface Band extends BandSpan {
  readonly samples: Samples;
}

const STRIPS = 8;
/** Fraction of the rows; a central crop instead would hide tilt and bias the sizes. */
const STRIP_SHARE = 0.26;
/** A strip must hold large stars with the sky around them. */
const STRIP_ROWS_MIN = 96;
const BAND_ROWS = 700;
/** Margin around a band for the apertures of stars near its edge. */
const MARGIN_ROWS = 48;

/** The bands to read, from the first row on. A frame too small for strips is read whole. */
export function bandsOf(height: number, by: StarReading): readonly BandSpan[] {
  const rows = Math.max(STRIP_ROWS_MIN, Math.round((height * STRIP_SHARE) / STRIPS));
  return by === 'strips' && rows * STRIPS < height * 0.8 ? strips(height, rows) : overlapping(height);
}

function strips(height: number, rows: number): BandSpan[] {
  return Array.from({ length: STRIPS }, (_, strip) => {
    const first = Math.round(((strip + 0.5) * height) / STRIPS - rows / 2);
    return { first, end: first + rows, from: first, to: first + rows };
  });
}

function overlapping(height: number): BandSpan[] {
  const count = Math.max(1, Math.round(height / BAND_ROWS));
  return Array.from({ length: count }, (_, band) => {
    const from = Math.round((band * height) / count);
    const to = Math.round(((band + 1) * height) / count);
    return { first: Math.max(0, from - MARGIN_ROWS), end: Math.min(height, to + MARGIN_ROWS), from, to };
  });
}
