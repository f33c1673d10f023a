/** Opens a frame's pixels: plain FITS, gzip'd FITS, tile-compressed FITS. */
import { closeSync, createReadStream, fstatSync, openSync, readSync } from 'node:fs';
import { createGunzip } from 'node:zlib';
import { NotMeasured } from '../not-measured.js';
import type { Band, BandSpan, Samples } from './bands.js';
import type { ByteReader } from './cards.js';
import { findImage, type ImageShape, type PlainUnit } from './image-unit.js';
import { convert, keepsIntegers, newSamples } from './samples.js';
import { TiledBands } from './tiled-bands.js';

export interface OpenPixels {
  readonly shape: ImageShape;
  /** Yields the bands in order; the samples of one are invalidated by the next. */
  bands(spans: readonly BandSpan[]): AsyncGenerator<Band>;
  close(): void;
}

/** @throws NotMeasured, and system errors of reading */
export async function openPixels(path: string, memory: PixelMemory): Promise<OpenPixels> {
  const file = openSync(path, 'r');
  try {
    const stat = fstatSync(file);
    if (!stat.isFile()) throw new NotMeasured('it is not a file');
    const magic = Buffer.alloc(2);
    readSync(file, magic, 0, 2, 0);
    if (magic[0] === 0x1f && magic[1] === 0x8b) {
      closeSync(file);
      return await openGzip(path, stat.size);
    }
    return await openPlain(file, stat.size, memory);
  } catch (error) {
    closeQuietly(file);
    throw error;
  }
}

async function openPlain(file: number, fileBytes: number, memory: PixelMemory): Promise<OpenPixels> {
  let at = 0;
  const unit = await findImage({
    read: async (length) => {
      const bytes = Buffer.alloc(length);
      const got = readSync(file, bytes, 0, length, at);
      at += got;
      return bytes.subarray(0, got);
    },
    skip: async (length) => {
      at += length;
    },
  });
  const close = (): void => closeQuietly(file);
  const readAt = (offset: number, length: number): Buffer => {
    if (offset + length > fileBytes) throw new NotMeasured(TOO_SHORT);
    return readFully(file, Buffer.allocUnsafeSlow(length), offset);
  };
  if (unit.kind === 'tiled') {
    const tiles = new TiledBands(unit, readAt, fileBytes);
    return {
      shape: unit,
      close,
      bands: (spans) => eachBand(unit, spans, memory, (span, samples) => tiles.read(span, samples)),
    };
  }
  if (planeOffset(unit) + unit.width * unit.height * bytesPerPixel(unit) > fileBytes) throw new NotMeasured(TOO_SHORT);
  const fill = (span: BandSpan, samples: Samples): void => {
    const count = (span.end - span.first) * unit.width;
    const offset = planeOffset(unit) + span.first * unit.width * bytesPerPixel(unit);
    // 16-bit numbers are used in place.
    const bytes =
      samples.BYTES_PER_ELEMENT === bytesPerPixel(unit)
        ? Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength)
        : memory.bytes(count * bytesPerPixel(unit));
    readFully(file, bytes, offset);
    convert(unit, bytes, samples, 0, count);
  };
  return { shape: unit, close, bands: (spans) => eachBand(unit, spans, memory, fill) };
}

/** Deflate cannot compress better (RFC 1951: 258 bytes in two bits, and the block's header). */
const DEFLATE_RATIO = 1040;
const TOO_SHORT = 'the file is shorter than its header states: copy it again from the camera computer';

async function openGzip(path: string, packedBytes: number): Promise<OpenPixels> {
  const stream = createReadStream(path);
  const gunzip = createGunzip();
  stream.on('error', (error) => gunzip.destroy(error));
  stream.pipe(gunzip);
  const close = (): void => {
    stream.destroy();
    gunzip.destroy();
  };
  try {
    const reader = new StreamReader(gunzip[Symbol.asyncIterator]());
    const unit = await findImage(reader);
    if (unit.width * unit.height * bytesPerPixel(unit) > packedBytes * DEFLATE_RATIO) throw new NotMeasured(TOO_SHORT);
    if (unit.kind === 'tiled') throw new NotMeasured('tile compression inside gzip is not read: unpack the file once');
    await reader.skip(planeOffset(unit) - unit.offset);
    return { shape: unit, close, bands: (spans) => streamedBands(unit, reader, spans) };
  } catch (error) {
    close();
    throw error;
  }
}

/** Rows come once, in order; where bands overlap, rows of the next are kept from the last. */
async function* streamedBands(unit: PlainUnit, reader: StreamReader, spans: readonly BandSpan[]): AsyncGenerator<Band> {
  const { width } = unit;
  let row = 0;
  let last: Band | undefined;
  for (const span of spans) {
    const samples = newSamples(unit, (span.end - span.first) * width);
    let filled = 0;
    if (last !== undefined && span.first < last.end) {
      samples.set(last.samples.subarray((span.first - last.first) * width));
      filled = last.end - span.first;
    } else await reader.skip((span.first - row) * width * bytesPerPixel(unit));
    for (row = span.first + filled; row < span.end; row++) {
      const bytes = await reader.read(width * bytesPerPixel(unit));
      if (bytes.length < width * bytesPerPixel(unit)) throw new NotMeasured(TOO_SHORT);
      convert(unit, bytes, samples, (row - span.first) * width, width);
    }
    last = { ...span, samples };
    yield last;
  }
}

async function* eachBand(
  shape: ImageShape,
  spans: readonly BandSpan[],
  memory: PixelMemory,
  fill: (span: BandSpan, samples: Samples) => void,
): AsyncGenerator<Band> {
  const longest = Math.max(...spans.map((span) => span.end - span.first));
  const { width } = shape;
  const all = memory.samples(shape, longest * width);
  let last: BandSpan | undefined;
  for (const span of spans) {
    const samples = all.subarray(0, (span.end - span.first) * width);
    // Rows already in the previous band are moved, not read again.
    const kept = last !== undefined && span.first >= last.first ? Math.max(0, last.end - span.first) : 0;
    if (last !== undefined && kept > 0) {
      const from = (span.first - last.first) * width;
      all.copyWithin(0, from, from + kept * width);
    }
    fill({ ...span, first: span.first + kept }, samples.subarray(kept * width));
    yield { ...span, samples };
    last = span;
  }
}

/** Reads a stream piece by piece, without keeping it. */
class StreamReader implements ByteReader {
  private chunk: Buffer = Buffer.alloc(0);
  private readonly scratch = new Scratch();

  constructor(private readonly chunks: AsyncIterator<Buffer>) {}

  async read(length: number): Promise<Buffer> {
    const bytes = this.scratch.take(length);
    let at = 0;
    while (at < length && (await this.more())) {
      const part = this.chunk.subarray(0, length - at);
      part.copy(bytes, at);
      at += part.length;
      this.chunk = this.chunk.subarray(part.length);
    }
    return bytes.subarray(0, at);
  }

  async skip(length: number): Promise<void> {
    let left = length;
    while (left > 0 && (await this.more())) {
      const part = Math.min(left, this.chunk.length);
      this.chunk = this.chunk.subarray(part);
      left -= part;
    }
  }

  private async more(): Promise<boolean> {
    while (this.chunk.length === 0) {
      const next = await this.chunks.next();
      if (next.done === true) return false;
      this.chunk = next.value;
    }
    return true;
  }
}

/** Reusable working memory for reading frames. */
export class PixelMemory {
  private readonly scratch = new Scratch();
  private kept: Samples = new Int16Array(0);

  bytes(length: number): Buffer {
    return this.scratch.take(length);
  }

  samples(shape: ImageShape, count: number): Samples {
    const fits = keepsIntegers(shape) === this.kept instanceof Int16Array && this.kept.length >= count;
    if (!fits) this.kept = newSamples(shape, count);
    return this.kept.subarray(0, count);
  }
}

/** A buffer that grows, aligned for every number type. */
class Scratch {
  private buffer: Buffer = Buffer.alloc(0);

  take(length: number): Buffer {
    if (this.buffer.length < length) this.buffer = Buffer.allocUnsafeSlow(length);
    return this.buffer.subarray(0, length);
  }
}

function readFully(file: number, bytes: Buffer, offset: number): Buffer {
  for (let at = 0; at < bytes.length; ) {
    const got = readSync(file, bytes, at, bytes.length - at, offset + at);
    if (got === 0) throw new NotMeasured(TOO_SHORT);
    at += got;
  }
  return bytes;
}

function bytesPerPixel({ bitpix }: ImageShape): number {
  return Math.abs(bitpix) / 8;
}

function planeOffset(unit: PlainUnit): number {
  return unit.offset + unit.plane * unit.width * unit.height * bytesPerPixel(unit);
}

function closeQuietly(file: number): void {
  try {
    closeSync(file);
  } catch {
    // Closed before.
  }
}
