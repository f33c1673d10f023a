/** Values of the image convolved with [1 2 1; 2 4 2; 1 2 1]/16, computed on demand. */
import type { Samples } from '../pixels/bands.js';

const MARGIN_ROOM = 64;

export class Convolved {
  /** NaN if not yet computed; −∞ all around the field, where there is none. */
  private values = new Float32Array(0);
  private samples: Samples = new Int16Array(0);
  private width = 0;
  private height = 0;
  /** Computed positions, so that only they are cleared before the next field. */
  private taken = new Int32Array(4096);
  private count = 0;

  /** Starts with a field without computed values. */
  begin(samples: Samples, width: number, height: number): void {
    this.samples = samples;
    if (width !== this.width || samples.length > this.values.length) {
      // Bands differ by a margin: allocating for it now avoids reallocation.
      const rows = height + MARGIN_ROOM;
      this.values = new Float32Array(rows * width).fill(NaN);
      this.values.fill(-Infinity, 0, width);
      for (let row = 1; row < rows; row++) this.closeSides(row, width);
    } else {
      for (let i = 0; i < this.count; i++) this.values[this.taken[i] as number] = NaN;
      this.values.fill(NaN, (this.height - 1) * width, this.height * width);
      this.closeSides(this.height - 1, width);
    }
    this.values.fill(-Infinity, (height - 1) * width, height * width);
    this.width = width;
    this.height = height;
    this.count = 0;
  }

  /** A value already computed; NaN if not, −∞ on the field's edge. */
  at(place: number): number {
    return this.values[place] as number;
  }

  /** Whether a value has been computed. */
  isKnown(place: number): boolean {
    return !Number.isNaN(this.values[place]);
  }

  /** Computes the value at a position where none is known, and compares it with the threshold. */
  isAbove(place: number, threshold: number): boolean {
    const { values, samples, width } = this;
    const above = place - width;
    const below = place + width;
    const value =
      ((samples[above - 1] as number) +
        (samples[above + 1] as number) +
        (samples[below - 1] as number) +
        (samples[below + 1] as number) +
        2 *
          ((samples[above] as number) +
            (samples[below] as number) +
            (samples[place - 1] as number) +
            (samples[place + 1] as number)) +
        4 * (samples[place] as number)) /
      16;
    // A value without valid pixels nearby counts as computed, and is above no threshold.
    values[place] = Number.isNaN(value) ? -Infinity : value;
    if (this.count === this.taken.length) this.taken = grown(this.taken);
    this.taken[this.count++] = place;
    return value > threshold;
  }

  private closeSides(row: number, width: number): void {
    this.values[row * width] = -Infinity;
    this.values[(row + 1) * width - 1] = -Infinity;
  }
}

/** The same numbers with capacity for as many more. */
export function grown(array: Int32Array): Int32Array<ArrayBuffer> {
  const more = new Int32Array(array.length * 2);
  more.set(array);
  return more;
}
