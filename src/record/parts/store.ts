/** Writes the parts of a record. A separate module: writing needs no schema, which takes long to load. */
import { promisify } from 'node:util';
import { gzip, gzipSync } from 'node:zlib';
import type { Night } from '../../model/index.js';
import { storeSeries } from './columns.js';
import type { KeptText } from './index.js';

export type { KeptText } from './index.js';

/** Writes the parts. */
export function storeParts(night: Night): KeptText {
  return keptText(gzipSync(partsText(night), PACKING));
}

/**
 * Writes the parts in the background: compression runs on another core. Space for the whole result is allocated at
 * once: otherwise compression would wait until the program is idle.
 */
export async function packParts(night: Night): Promise<KeptText> {
  const text = partsText(night);
  return keptText(await gzipBeside(text, { ...PACKING, chunkSize: LEAST_ROOM + Math.ceil(text.length * PACKED) }));
}

const PACKING = { level: 9 };
/** More than the compressed size of a night's parts; if it is insufficient, compression waits. */
const PACKED = 0.25;
/** What the library gives by itself, bytes. */
const LEAST_ROOM = 16_384;
const gzipBeside = promisify<Buffer, { level: number; chunkSize: number }, Buffer>(gzip);

function partsText({ date, span, gathered, timeline, sky, stars }: Night): Buffer {
  const { guiding, ...rest } = gathered;
  return Buffer.from(
    JSON.stringify({
      date,
      span,
      gathered: { ...rest, guiding: guiding && storeSeries(guiding) },
      timeline,
      sky,
      stars,
    }),
  );
}

function keptText(packed: Buffer): KeptText {
  return { encoding: 'gzip+base64', data: packed.toString('base64') };
}
