/**
 * Finds connected pixels that stand 5σ above the background on the image convolved with [1 2 1; 2 4 2; 1 2 1]/16
 * (Bertin & Arnouts 1996). A normalised kernel exceeds a threshold only where one of its pixels does, so the convolution
 * is done next to such pixels alone, with the same result.
 */
import type { Samples } from '../pixels/bands.js';
import type { Mesh } from './background.js';
import type { Field } from './moments.js';

export const THRESHOLD_SIGMAS = 5;
const PIXELS_MIN = 5;

/** Connected pixels above the threshold. The arrays are valid until the next component. */
export interface Component {
  readonly level: number;
  readonly noise: number;
  /** Places of the pixels (row × width + column), `count` of them. */
  readonly pixels: Int32Array;
  readonly count: number;
  /** The place with the greatest convolved value. */
  readonly peak: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export class Detector {
  /** 1 where the convolved value was taken, 2 where it is above the threshold of its component. */
  private seen = new Uint8Array(0);
  private convolved = new Float32Array(0);
  private pixels = new Int32Array(1024);
  private thresholds = new Float64Array(0);

  /** Visits every component whose brightest pixel lies in rows `[from, to)` of the field. */
  detect(field: Field, mesh: Mesh, from: number, to: number, visit: (component: Component) => void): void {
    const { samples, width, height } = field;
    if (this.seen.length < samples.length) {
      this.seen = new Uint8Array(samples.length);
      this.convolved = new Float32Array(samples.length);
    } else this.seen.fill(0, 0, samples.length);
    if (this.thresholds.length < mesh.columns) this.thresholds = new Float64Array(mesh.columns);
    const thresholds = this.thresholds;
    const first = Math.max(1, from - 1);
    const last = Math.min(height - 2, to);
    for (let row = first; row <= last; row++) {
      mesh.thresholds(row, THRESHOLD_SIGMAS, thresholds);
      const start = row * width;
      // Between two cell centres the threshold runs straight, so the lower end is a safe first question.
      for (let column = 0; column <= mesh.columns; column++) {
        const begin = column === 0 ? 1 : Math.max(1, Math.ceil(mesh.centreOf(column - 1)));
        const end = column === mesh.columns ? width - 1 : Math.min(width - 1, Math.ceil(mesh.centreOf(column)));
        const low = Math.min(
          thresholds[Math.max(0, column - 1)] as number,
          thresholds[Math.min(mesh.columns - 1, column)] as number,
        );
        const stop = start + end;
        for (
          let at = nextAbove(samples, start + begin, stop, low);
          at < stop;
          at = nextAbove(samples, at + 1, stop, low)
        )
          this.around(field, mesh, at, from, to, visit);
      }
    }
  }

  /** Looks at the convolved values that a bright pixel can have lifted. */
  private around(
    field: Field,
    mesh: Mesh,
    at: number,
    from: number,
    to: number,
    visit: (component: Component) => void,
  ): void {
    const { width } = field;
    const x = at % width;
    const y = (at - x) / width;
    const level = mesh.levelAt(x, y);
    const noise = mesh.noiseAt(x, y);
    const threshold = level + THRESHOLD_SIGMAS * noise;
    if ((field.samples[at] as number) <= threshold) return;
    for (let j = -1; j <= 1; j++)
      for (let i = -1; i <= 1; i++) {
        const place = at + j * width + i;
        if (this.seen[place] !== 0 || !this.isAbove(field, place, threshold)) continue;
        const component = this.grow(field, place, level, noise, threshold);
        const row = Math.floor(component.peak / width);
        if (component.count >= PIXELS_MIN && row >= from && row < to) visit(component);
      }
  }

  /** A convolved value; −∞ where none was taken, which is below every threshold. */
  valueAt(place: number): number {
    return this.seen[place] === 0 ? -Infinity : (this.convolved[place] ?? -Infinity);
  }

  private grow(field: Field, seed: number, level: number, noise: number, threshold: number): Component {
    const { width } = field;
    let count = 1;
    this.pixels[0] = seed;
    let peak = seed;
    let left = width,
      right = 0,
      top = field.height,
      bottom = 0;
    for (let next = 0; next < count; next++) {
      const at = this.pixels[next] as number;
      if ((this.convolved[at] as number) > (this.convolved[peak] as number)) peak = at;
      const x = at % width;
      const y = (at - x) / width;
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < top) top = y;
      if (y > bottom) bottom = y;
      for (let j = -width; j <= width; j += width)
        for (let i = -1; i <= 1; i++) {
          const place = at + j + i;
          if (this.seen[place] !== 0 || !this.isAbove(field, place, threshold)) continue;
          if (count === this.pixels.length) this.pixels = grown(this.pixels);
          this.pixels[count++] = place;
        }
    }
    return { level, noise, pixels: this.pixels, count, peak, left, right, top, bottom };
  }

  /** Takes the convolved value of a place, once; places on the field's edge have none. */
  private isAbove({ samples, width, height }: Field, at: number, threshold: number): boolean {
    const x = at % width;
    const above = at - width;
    const below = at + width;
    if (x === 0 || x === width - 1 || above < 0 || below >= width * height) {
      this.seen[at] = 1;
      this.convolved[at] = -Infinity;
      return false;
    }
    const value =
      ((samples[above - 1] as number) +
        (samples[above + 1] as number) +
        (samples[below - 1] as number) +
        (samples[below + 1] as number) +
        2 *
          ((samples[above] as number) +
            (samples[below] as number) +
            (samples[at - 1] as number) +
            (samples[at + 1] as number)) +
        4 * (samples[at] as number)) /
      16;
    this.convolved[at] = value;
    const isAbove = value > threshold;
    this.seen[at] = isAbove ? 2 : 1;
    return isAbove;
  }
}

/** The next place with a sample above the limit, or the end. */
function nextAbove(samples: Samples, from: number, end: number, limit: number): number {
  if (samples instanceof Int16Array) return nextAboveWhole(samples, from, end, Math.floor(limit) | 0);
  let at = from;
  while (at < end && !((samples[at] as number) > limit)) at++;
  return at;
}

/** The same for whole numbers, which are compared as such; this loop sees every pixel of a frame. */
function nextAboveWhole(samples: Int16Array, from: number, end: number, limit: number): number {
  let at = from;
  for (const stop = end - 3; at < stop; at += 4) {
    if ((samples[at] as number) > limit) return at;
    if ((samples[at + 1] as number) > limit) return at + 1;
    if ((samples[at + 2] as number) > limit) return at + 2;
    if ((samples[at + 3] as number) > limit) return at + 3;
  }
  while (at < end && (samples[at] as number) <= limit) at++;
  return at;
}

function grown(array: Int32Array): Int32Array<ArrayBuffer> {
  const more = new Int32Array(array.length * 2);
  more.set(array);
  return more;
}
