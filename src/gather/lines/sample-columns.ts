import { itemAt } from '../../model/collections.js';
import type { GuidingSeries, Source } from '../../model/index.js';

/** Room for the samples of a few hours at one a second; more doubles it. */
const FIRST_ROOM = 16_384;

/** Guiding samples while they are being gathered: four columns that grow by doubling. */
export class SampleColumns {
  private size = 0;
  private atMs = new Float64Array(FIRST_ROOM);
  private ra = new Float64Array(FIRST_ROOM);
  private dec = new Float64Array(FIRST_ROOM);
  private snr = new Float64Array(FIRST_ROOM);
  private sorted = true;

  get count(): number {
    return this.size;
  }

  /** Whether the samples came in the order of their times. */
  get inOrder(): boolean {
    return this.sorted;
  }

  /** @param snr NaN when there is none */
  push(atMs: number, raArcsec: number, decArcsec: number, snr: number): void {
    const i = this.size;
    if (i === this.atMs.length) this.grow();
    if (i > 0 && atMs < itemAt(this.atMs, i - 1)) this.sorted = false;
    this.atMs[i] = atMs;
    this.ra[i] = raArcsec;
    this.dec[i] = decArcsec;
    this.snr[i] = snr;
    this.size = i + 1;
  }

  /** The samples sorted by time, equal times in the order they came; `null` when there are none. */
  toSeries(sources: readonly Source[]): GuidingSeries | null {
    if (this.size === 0) return null;
    const columns = [this.atMs, this.ra, this.dec, this.snr].map((column) => column.slice(0, this.size));
    const [atMs, raArcsec, decArcsec, snr] = this.sorted ? columns : sortedBy(columns);
    if (!atMs || !raArcsec || !decArcsec || !snr) return null;
    return { atMs, raArcsec, decArcsec, snr, sources };
  }

  private grow(): void {
    const doubled = (column: Float64Array): Float64Array<ArrayBuffer> => {
      const larger = new Float64Array(column.length * 2);
      larger.set(column);
      return larger;
    };
    this.atMs = doubled(this.atMs);
    this.ra = doubled(this.ra);
    this.dec = doubled(this.dec);
    this.snr = doubled(this.snr);
  }
}

/** The columns with their rows in the order of the first one's values. */
function sortedBy(columns: readonly Float64Array[]): Float64Array[] {
  const key = columns[0] ?? new Float64Array();
  const order = Uint32Array.from(key.keys()).sort((a, b) => itemAt(key, a) - itemAt(key, b) || a - b);
  return columns.map((column) => Float64Array.from(order, (row) => itemAt(column, row)));
}
