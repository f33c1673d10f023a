/** Subtractive dithering of quantised floats (FITS Standard 4.0, section 10.2 and Appendix I). */

export type Quantisation = 'NO_DITHER' | 'SUBTRACTIVE_DITHER_1' | 'SUBTRACTIVE_DITHER_2';

const COUNT = 10_000;
const MULTIPLIER = 16_807;
const MODULUS = 2_147_483_647;
/** Stored for a value of exactly zero under SUBTRACTIVE_DITHER_2. */
const ZERO_CODE = -2_147_483_646;

let numbers: Float32Array | undefined;

/** The 10,000 random numbers of Appendix I, single precision as the reference implementation keeps them. */
export function ditherNumbers(): Float32Array {
  if (numbers !== undefined) return numbers;
  const made = new Float32Array(COUNT);
  let seed = 1;
  for (let i = 0; i < COUNT; i++) {
    // The product stays below 2^46, so doubles are exact.
    seed = (MULTIPLIER * seed) % MODULUS;
    made[i] = seed / MODULUS;
  }
  numbers = made;
  return made;
}

export interface TileQuantisation {
  readonly method: Quantisation;
  readonly scale: number;
  readonly zero: number;
  readonly blank: number | undefined;
  /** ZDITHER0, from 1. */
  readonly seed: number;
  /** The tile's row in the table, from 1. */
  readonly row: number;
}

/** Restores floats from their integers; blanks become NaN. */
export function restoreFloats(codes: Int32Array, tile: TileQuantisation, out: Float32Array | Float64Array): void {
  const { method, scale, zero, blank } = tile;
  if (method === 'NO_DITHER') {
    for (let i = 0; i < codes.length; i++) {
      const code = codes[i] as number;
      out[i] = code === blank ? NaN : code * scale + zero;
    }
    return;
  }
  const random = ditherNumbers();
  const zeroCode = method === 'SUBTRACTIVE_DITHER_2' ? ZERO_CODE : undefined;
  let start = (tile.row + tile.seed - 2) % COUNT;
  let next = Math.floor(Math.fround((random[start] as number) * 500));
  for (let i = 0; i < codes.length; i++) {
    const code = codes[i] as number;
    if (code === blank) out[i] = NaN;
    else if (code === zeroCode) out[i] = 0;
    else out[i] = (code - (random[next] as number) + 0.5) * scale + zero;
    next++;
    if (next === COUNT) {
      start = (start + 1) % COUNT;
      next = Math.floor(Math.fround((random[start] as number) * 500));
    }
  }
}
