/** Writes the parts that a record keeps. By itself: who writes them needs no schema, which takes long to load. */
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
 * Writes the parts while other work goes on: packing them is done beside the program, on another core. Room for all
 * that they become is given at once: for more of it packing would wait until the program has nothing else to do.
 */
export async function packParts(night: Night): Promise<KeptText> {
  const text = partsText(night);
  return keptText(await gzipBeside(text, { ...PACKING, chunkSize: LEAST_ROOM + Math.ceil(text.length * PACKED) }));
}

const PACKING = { level: 9 };
/** More than is left of a night's parts; where it should be too little, packing waits. */
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
