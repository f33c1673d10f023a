/** Big-endian stored numbers → samples (FITS Standard 4.0, section 5). */
import type { Samples } from './bands.js';
import type { ImageShape } from './image-unit.js';

/**
 * How samples become values: `zero + scale · sample`; `quantum` is the step between neighbouring values, 0 for floats.
 */
export interface SampleScale {
  readonly zero: number;
  readonly scale: number;
  readonly quantum: number;
  /** The largest sample that the stored type can hold; `undefined` if that is unrelated to the sensor. */
  readonly greatest: number | undefined;
}

/** Whether samples stay 16-bit integers. 8-bit ones are widened. */
export function keepsIntegers(shape: ImageShape): boolean {
  return (shape.bitpix === 16 || shape.bitpix === 8) && shape.scale === 1 && shape.blank === undefined;
}

export function sampleScale(shape: ImageShape): SampleScale {
  const top = shape.bitpix === 16 ? 32767 : shape.bitpix === 8 ? 255 : undefined;
  if (keepsIntegers(shape)) return { zero: shape.zero, scale: 1, quantum: 1, greatest: top };
  const greatest = top === undefined || shape.scale < 0 ? undefined : shape.zero + shape.scale * top;
  return { zero: 0, scale: 1, quantum: shape.bitpix > 0 ? Math.abs(shape.scale) : 0, greatest };
}

export function newSamples(shape: ImageShape, count: number): Samples {
  return keepsIntegers(shape) ? new Int16Array(count) : new Float32Array(count);
}

/**
 * Converts stored numbers into samples; non-numbers, infinite and blank values become NaN.
 *
 * @param bytes `count` stored numbers; changed in place, and may be the samples' own memory
 * @param at destination of the samples
 */
export function convert(shape: ImageShape, bytes: Buffer, samples: Samples, at: number, count: number): void {
  const { bitpix, scale, zero, blank } = shape;
  if (bitpix === 16 && samples instanceof Int16Array) {
    bytes.swap16();
    const stored = new Int16Array(bytes.buffer, bytes.byteOffset, count);
    if (stored.byteOffset !== samples.byteOffset || stored.buffer !== samples.buffer) samples.set(stored, at);
    return;
  }
  if (bitpix === 8 && samples instanceof Int16Array) {
    for (let i = 0; i < count; i++) samples[at + i] = bytes[i] as number;
    return;
  }
  const stored = storedNumbers(bitpix, bytes, count);
  for (let i = 0; i < count; i++) {
    const number = stored[i] as number;
    const value = number === blank ? NaN : zero + scale * number;
    samples[at + i] = value - value === 0 ? value : NaN;
  }
}

function storedNumbers(bitpix: ImageShape['bitpix'], bytes: Buffer, count: number): ArrayLike<number> {
  const { buffer, byteOffset } = bytes;
  switch (bitpix) {
    case 8:
      return bytes;
    case 16:
      bytes.swap16();
      return new Int16Array(buffer, byteOffset, count);
    case 32:
      bytes.swap32();
      return new Int32Array(buffer, byteOffset, count);
    case -32:
      bytes.swap32();
      return new Float32Array(buffer, byteOffset, count);
    case -64:
      bytes.swap64();
      return new Float64Array(buffer, byteOffset, count);
  }
}
