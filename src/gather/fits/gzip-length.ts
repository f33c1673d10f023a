/**
 * Whether a gzip file contains the complete image described by its header. Its last four bytes state its inflated size
 * (RFC 1952, section 2.3.1), which is cheap to check; only if they disagree is it inflated completely.
 */
import { createReadStream } from 'node:fs';
import type { ByteSource } from './header-memory.js';
import { paddedBytes } from './image-shape.js';
import type { HeaderNote } from './notes.js';
import * as oddities from './notes.js';

const LENGTH_BYTES = 4;
/** Lengths are stated modulo this. */
const LENGTH_MODULUS = 2 ** 32;
/** More than this behind the image is no extension that frames have: the file is inflated to be sure. */
const MOST_TIMES_IMAGE = 4;
/** Deflate cannot compress better (RFC 1951: 258 bytes in two bits, and the block's header). */
const DEFLATE_RATIO = 1040;
/** No more than this is inflated to be sure. */
const MOST_INFLATED_BYTES = 2 ** 30;

/**
 * Whether a gzip file's last bytes leave open that it is whole.
 *
 * @param file compressed
 * @param neededBytes that its header and image take inflated, without the fill of the last block
 */
export function statesOtherLength(file: ByteSource, sizeBytes: number, neededBytes: number): boolean {
  const end = Buffer.alloc(LENGTH_BYTES);
  if (file.read(end, 0, LENGTH_BYTES, sizeBytes - LENGTH_BYTES) < LENGTH_BYTES) return true;
  const stated = end.readUInt32LE();
  if (stated === neededBytes % LENGTH_MODULUS || stated === paddedBytes(neededBytes) % LENGTH_MODULUS) return false;
  // Further units behind the image.
  const isLonger = stated > neededBytes && stated < MOST_TIMES_IMAGE * neededBytes && stated === paddedBytes(stated);
  return !isLonger;
}

/**
 * Inflates a gzip file to the end of its image, and says what is missing; `null` if nothing is.
 *
 * @param neededBytes as in {@link statesOtherLength}
 */
export async function missingWhenInflated(
  path: string,
  sizeBytes: number,
  neededBytes: number,
): Promise<HeaderNote | null> {
  if (neededBytes > sizeBytes * DEFLATE_RATIO) return oddities.tooSmallGzip(sizeBytes, neededBytes);
  if (neededBytes > MOST_INFLATED_BYTES) return oddities.unprovenGzip(neededBytes);
  const { constants, createGunzip } = process.getBuiltinModule('node:zlib');
  const packed = createReadStream(path);
  // A sync flush at the end accepts input that stops in the middle of the stream.
  const gunzip = createGunzip({ finishFlush: constants.Z_SYNC_FLUSH });
  packed.on('error', (error) => gunzip.destroy(error));
  packed.pipe(gunzip);
  let inflated = 0;
  try {
    for await (const chunk of gunzip) {
      inflated += (chunk as Buffer).length;
      if (inflated >= neededBytes) return null;
    }
  } catch (error) {
    const note = oddities.fromError(error);
    if (note.code !== 'damaged-gzip') return note;
  } finally {
    packed.destroy();
    gunzip.destroy();
  }
  return oddities.truncatedGzip(inflated, neededBytes);
}
