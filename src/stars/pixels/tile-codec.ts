/** One tile's bytes → its stored numbers, and nothing larger (FITS Standard 4.0, sections 10.2 and 10.4). */
import { unzipSync } from 'node:zlib';
import { NotMeasured } from '../not-measured.js';
import { type Quantisation, restoreFloats } from './dither.js';
import type { Bitpix } from './image-unit.js';
import { decodeRice, type RiceBytes } from './rice.js';

export type TileNumbers = Int32Array | Float32Array | Float64Array;

export interface PackedTile {
  readonly bytes: Buffer;
  readonly codec: 'RICE_1' | 'GZIP_1' | 'GZIP_2' | 'NOCOMPRESS';
  /** How floats were quantised; absent if they were not, and for integers. */
  readonly quantised?: {
    readonly method: Quantisation;
    readonly scale: number;
    readonly zero: number;
    readonly blank: number | undefined;
    readonly seed: number;
    readonly row: number;
  };
  readonly riceBytes: RiceBytes;
  readonly riceBlock: number;
}

/** Deflate cannot do better (RFC 1951). */
const DEFLATE_RATIO = 1040;
const DAMAGED = 'a tile of its compressed image is damaged: copy the file again from the camera computer';

/**
 * Unpacks one tile.
 *
 * @param count numbers in the tile
 * @throws NotMeasured when the bytes hold fewer or more numbers than the tile has
 */
export function unpackTile(tile: PackedTile, bitpix: Bitpix, count: number): TileNumbers {
  if (!canHold(tile, count)) throw new NotMeasured(DAMAGED);
  if (bitpix === 8 || bitpix === 16 || bitpix === 32) return wholeNumbers(tile, bitpix, count);
  const floats = bitpix === -64 ? new Float64Array(count) : new Float32Array(count);
  if (tile.quantised !== undefined) {
    restoreFloats(wholeNumbers(tile, 32, count), tile.quantised, floats);
    return floats;
  }
  const bytes = plainBytes(tile, count, floats.BYTES_PER_ELEMENT);
  if (bytes.length !== count * floats.BYTES_PER_ELEMENT) throw new NotMeasured(DAMAGED);
  for (let i = 0; i < count; i++) floats[i] = bitpix === -64 ? bytes.readDoubleBE(i * 8) : bytes.readFloatBE(i * 4);
  return floats;
}

/** Whether so few bytes can unpack to so many numbers at all; checked before memory is allocated. */
function canHold({ codec, bytes, riceBlock }: PackedTile, count: number): boolean {
  if (codec === 'NOCOMPRESS') return bytes.length >= count;
  if (codec === 'RICE_1') return count <= Math.ceil((bytes.length * 8) / 3) * riceBlock;
  return count <= bytes.length * DEFLATE_RATIO;
}

function wholeNumbers(tile: PackedTile, bitpix: 8 | 16 | 32, count: number): Int32Array {
  const out = new Int32Array(count);
  if (tile.codec === 'RICE_1') {
    if (!decodeRice(tile.bytes, tile.riceBytes, tile.riceBlock, out)) throw new NotMeasured(DAMAGED);
    return out;
  }
  const bytes = plainBytes(tile, count, 4);
  // Writers store numbers in as many bytes as BITPIX indicates, or in four.
  switch (bytes.length / count) {
    case 1:
      out.set(bytes);
      break;
    case 2:
      for (let i = 0; i < count; i++) out[i] = bytes.readInt16BE(i * 2);
      break;
    case 4:
      for (let i = 0; i < count; i++) out[i] = bytes.readInt32BE(i * 4);
      break;
    default:
      throw new NotMeasured(DAMAGED);
  }
  if (bytes.length / count < bitpix / 8) throw new NotMeasured(DAMAGED);
  return out;
}

/** Bytes of big-endian numbers, never more than the tile can have. */
function plainBytes(tile: PackedTile, count: number, bytesPerNumber: number): Buffer {
  if (tile.codec === 'RICE_1') throw new NotMeasured('floats without quantisation cannot be Rice coded: it is damaged');
  if (tile.codec === 'NOCOMPRESS') return tile.bytes;
  let inflated: Buffer;
  try {
    inflated = unzipSync(tile.bytes, { maxOutputLength: count * bytesPerNumber });
  } catch {
    throw new NotMeasured(DAMAGED);
  }
  return tile.codec === 'GZIP_2' ? unshuffled(inflated, Math.floor(inflated.length / count), count) : inflated;
}

/** GZIP_2 stores all first bytes, then all second bytes, and so on. */
function unshuffled(bytes: Buffer, bytesPerNumber: number, count: number): Buffer {
  if (bytes.length !== bytesPerNumber * count) throw new NotMeasured(DAMAGED);
  const out = Buffer.allocUnsafe(bytes.length);
  for (let byte = 0, from = 0; byte < bytesPerNumber; byte++)
    for (let i = 0; i < count; i++) out[i * bytesPerNumber + byte] = bytes[from++] as number;
  return out;
}
