/**
 * Finds the first image of a FITS file: a plain array in the primary unit or an extension, or a tile-compressed one.
 */
import { NotMeasured } from '../not-measured.js';
import { BLOCK_BYTES, type ByteReader, type HeaderCards, readHeader } from './cards.js';

export type Bitpix = 8 | 16 | 32 | -32 | -64;

/** The image's array, and how stored numbers become values: `zero + scale · stored`. */
export interface ImageShape {
  readonly width: number;
  readonly height: number;
  /** Which plane is measured: the green one of three, else the only one. */
  readonly plane: number;
  readonly bitpix: Bitpix;
  readonly zero: number;
  readonly scale: number;
  /** The stored integer for 'no value'. */
  readonly blank: number | undefined;
}

export interface PlainUnit extends ImageShape {
  readonly kind: 'plain';
  /** Offset of the array in the file. */
  readonly offset: number;
}

export interface TiledUnit extends ImageShape {
  readonly kind: 'tiled';
  /** Offset of the table in the file. */
  readonly offset: number;
  readonly cards: HeaderCards;
}

/** No sensor is longer; a header with a larger size is damaged. */
const MAX_AXIS = 200_000;
const MAX_PIXELS = 2 ** 31;
const MAX_UNITS = 64;
const BITPIX: ReadonlySet<number> = new Set([8, 16, 32, -32, -64]);

/**
 * Reads headers up to the first image.
 * @throws NotMeasured when there is none, or none that can be measured
 */
export async function findImage(reader: ByteReader): Promise<PlainUnit | TiledUnit> {
  let offset = 0;
  for (let unit = 0; unit < MAX_UNITS; unit++) {
    const cards = await readHeader(reader, unit === 0);
    if (cards === undefined) break;
    offset += cards.bytes;
    const dataBytes = dataSize(cards);
    const extension = cards.text('XTENSION');
    if (extension === 'BINTABLE' && cards.flag('ZIMAGE'))
      return { kind: 'tiled', offset, cards, ...shapeOf(cards, 'Z') };
    const isImage = unit === 0 || extension === 'IMAGE' || extension === 'IUEIMAGE';
    if (isImage && cards.whole('NAXIS', 0, 999) >= 2 && dataBytes > 0)
      return { kind: 'plain', offset, ...shapeOf(cards, '') };
    const padded = Math.ceil(dataBytes / BLOCK_BYTES) * BLOCK_BYTES;
    await reader.skip(padded);
    offset += padded;
  }
  throw new NotMeasured('the file holds no image');
}

function shapeOf(cards: HeaderCards, prefix: '' | 'Z'): ImageShape {
  const axes = cards.whole(`${prefix}NAXIS`, 1, 999);
  if (axes < 2) throw new NotMeasured('its image has one axis only');
  const width = cards.whole(`${prefix}NAXIS1`, 1, MAX_AXIS);
  const height = cards.whole(`${prefix}NAXIS2`, 1, MAX_AXIS);
  const planes = axes > 2 ? cards.whole(`${prefix}NAXIS3`, 1, MAX_AXIS) : 1;
  for (let axis = 4; axis <= axes; axis++) cards.whole(`${prefix}NAXIS${axis}`, 1, 1);
  if (planes !== 1 && planes !== 3)
    throw new NotMeasured(`it holds ${planes} planes; one (or three colours) can be measured`);
  if (width * height > MAX_PIXELS)
    throw new NotMeasured(`its header states ${width} × ${height} pixels: it is damaged`);
  const bitpix = cards.whole(`${prefix}BITPIX`, -64, 64);
  if (!isBitpix(bitpix)) throw new NotMeasured(`BITPIX ${bitpix} is not one of 8, 16, 32, -32, -64`);
  const scale = cards.number('BSCALE') ?? 1;
  const zero = cards.number('BZERO') ?? 0;
  if (scale === 0 || !Number.isFinite(scale) || !Number.isFinite(zero))
    throw new NotMeasured(`BSCALE ${scale} with BZERO ${zero} leaves no pixel values: the header is damaged`);
  const blank = bitpix > 0 ? cards.number('BLANK') : undefined;
  return { width, height, plane: planes === 3 ? 1 : 0, bitpix, zero, scale, blank };
}

function isBitpix(value: number): value is Bitpix {
  return BITPIX.has(value);
}

/** Bytes of a data unit without padding (section 4.4.1.1). */
function dataSize(cards: HeaderCards): number {
  const axes = cards.whole('NAXIS', 0, 999);
  if (axes === 0) return 0;
  let elements = 1;
  for (let axis = 1; axis <= axes; axis++) elements *= cards.whole(`NAXIS${axis}`, 0, Number.MAX_SAFE_INTEGER);
  const bytes = Math.abs(cards.whole('BITPIX', -64, 64)) / 8;
  const groups = cards.whole('GCOUNT', 0, Number.MAX_SAFE_INTEGER, 1);
  const size = bytes * groups * (cards.whole('PCOUNT', 0, Number.MAX_SAFE_INTEGER, 0) + elements);
  if (!Number.isSafeInteger(size)) throw new NotMeasured('its header states more data than any file can hold');
  return size;
}
