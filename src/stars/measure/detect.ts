/**
 * Finds connected pixels that are 5σ above the background on the image convolved with [1 2 1; 2 4 2; 1 2 1]/16 (Bertin
 * & Arnouts 1996). A normalised kernel exceeds a threshold only where one of its pixels does, so the convolution is
 * only computed next to such pixels, with the same result.
 */
import type { Mesh } from './background.js';
import { Convolved, grown } from './convolved.js';
import type { Field } from './moments.js';
import { nextAbove, wordsOf } from './scan.js';

export const THRESHOLD_SIGMAS = 5;
const PIXELS_MIN = 5;
/** Cell columns scanned together for the lowest of their thresholds: between centres thresholds are linear. */
const GROUP = 8;

/** Connected pixels above the threshold. The arrays are valid until the next component. */
export interface Component {
  readonly level: number;
  readonly noise: number;
  /** Positions of the pixels (row × width + column), `count` of them. */
  readonly pixels: Int32Array;
  readonly count: number;
  /** The position of the largest convolved value. */
  readonly peak: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export class Detector {
  private readonly convolved = new Convolved();
  private pixels = new Int32Array(1024);
  /** The column of each of them, to avoid recomputing it by division. */
  private columns = new Int32Array(1024);
  private thresholds = new Float64Array(0);

  /** Visits every component whose brightest pixel is in rows `[from, to)` of the field. */
  detect(field: Field, mesh: Mesh, from: number, to: number, visit: (component: Component) => void): void {
    const { samples, width, height } = field;
    this.convolved.begin(samples, width, height);
    if (this.thresholds.length < mesh.columns) this.thresholds = new Float64Array(mesh.columns);
    const thresholds = this.thresholds;
    const words = wordsOf(samples);
    const first = Math.max(1, from - 1);
    const last = Math.min(height - 2, to);
    for (let row = first; row <= last; row++) {
      mesh.thresholds(row, THRESHOLD_SIGMAS, thresholds);
      const start = row * width;
      for (let group = 0; group < mesh.columns; group += GROUP) {
        const begin = group === 0 ? 1 : Math.ceil(mesh.centreOf(group));
        const isLast = group + GROUP >= mesh.columns;
        const stop = start + (isLast ? width - 1 : Math.ceil(mesh.centreOf(group + GROUP)));
        const until = Math.min(group + GROUP, mesh.columns - 1);
        const low = lowest(thresholds, group, until);
        const high = highest(thresholds, group, until);
        for (
          let at = nextAbove(samples, words, start + begin, stop, low);
          at < stop;
          at = nextAbove(samples, words, at + 1, stop, low)
        ) {
          // A pixel of a component whose neighbours have all been checked: most are so for every threshold here.
          const known = this.convolved.at(at);
          if (known > high) continue;
          const threshold = mesh.alongRow(thresholds, at - start);
          if (!((samples[at] as number) > threshold) || known > threshold) continue;
          this.around(field, mesh, at, threshold, from, to, visit);
        }
      }
    }
  }

  /** Checks the convolved values that a bright pixel can have raised. */
  private around(
    field: Field,
    mesh: Mesh,
    at: number,
    threshold: number,
    from: number,
    to: number,
    visit: (component: Component) => void,
  ): void {
    const { width } = field;
    for (let j = -width; j <= width; j += width)
      for (let i = -1; i <= 1; i++) {
        const place = at + j + i;
        if (this.convolved.isKnown(place) || !this.convolved.isAbove(place, threshold)) continue;
        const x = at % width;
        const y = (at - x) / width;
        const component = this.grow(field, place, mesh.levelAt(x, y), mesh.noiseAt(x, y), threshold);
        const row = Math.floor(component.peak / width);
        if (component.count >= PIXELS_MIN && row >= from && row < to) visit(component);
      }
  }

  /** A convolved value; −∞ if not computed, which is below every threshold. */
  valueAt(place: number): number {
    const value = this.convolved.at(place);
    return value - value === 0 ? value : -Infinity;
  }

  private grow(field: Field, seed: number, level: number, noise: number, threshold: number): Component {
    const { width } = field;
    const { convolved } = this;
    let { pixels, columns } = this;
    let count = 1;
    pixels[0] = seed;
    columns[0] = seed % width;
    let peak = seed;
    let greatest = convolved.at(seed);
    let left = width;
    let right = 0;
    let first = seed;
    let last = seed;
    for (let next = 0; next < count; next++) {
      const at = pixels[next] as number;
      const x = columns[next] as number;
      const value = convolved.at(at);
      if (value > greatest) {
        greatest = value;
        peak = at;
      }
      if (x < left) left = x;
      if (x > right) right = x;
      if (at < first) first = at;
      if (at > last) last = at;
      if (count + 8 > pixels.length) {
        this.pixels = pixels = grown(pixels);
        this.columns = columns = grown(columns);
      }
      for (let j = -width; j <= width; j += width)
        for (let i = -1; i <= 1; i++) {
          const place = at + j + i;
          if (convolved.isKnown(place) || !convolved.isAbove(place, threshold)) continue;
          pixels[count] = place;
          columns[count++] = x + i;
        }
    }
    const top = Math.floor(first / width);
    const bottom = Math.floor(last / width);
    return { level, noise, pixels, count, peak, left, right, top, bottom };
  }
}

function lowest(values: Float64Array, from: number, to: number): number {
  let low = values[from] as number;
  for (let i = from + 1; i <= to; i++) low = Math.min(low, values[i] as number);
  return low;
}

function highest(values: Float64Array, from: number, to: number): number {
  let high = values[from] as number;
  for (let i = from + 1; i <= to; i++) high = Math.max(high, values[i] as number);
  return high;
}
