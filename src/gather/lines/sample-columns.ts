import { itemAt } from '../../model/collections.js';
import type { GuidingSeries, Source } from '../../model/index.js';

/** Samples of a few hours at one a second. */
const PIECE = 16_384;
/** Samples in the first piece: that it is full is seen before V8 optimises, which would begin anew. */
const FIRST_PIECE = 256;

/** Time, right ascension, declination and signal to noise of some samples, one column after another. */
type Piece = Float64Array<ArrayBuffer>;
const COLUMNS = 4;

/** Guiding samples while they are being collected: in chunks, so that nothing is copied until all are there. */
export class SampleColumns {
  private readonly full: Piece[] = [];
  private piece: Piece = new Float64Array(COLUMNS * FIRST_PIECE);
  /** Samples that the piece being filled has room for, and that are in it. */
  private room = FIRST_PIECE;
  private used = 0;
  /** Samples in full pieces. */
  private before = 0;
  private lastMs = -Infinity;
  private sorted = true;

  get count(): number {
    return this.before + this.used;
  }

  /** Whether the samples came in the order of their times. */
  get inOrder(): boolean {
    return this.sorted;
  }

  /** @param snr NaN when there is none */
  push(atMs: number, raArcsec: number, decArcsec: number, snr: number): void {
    if (this.used === this.room) this.begin();
    if (atMs < this.lastMs) this.sorted = false;
    this.lastMs = atMs;
    const { piece, room, used } = this;
    piece[used] = atMs;
    piece[used + room] = raArcsec;
    piece[used + 2 * room] = decArcsec;
    piece[used + 3 * room] = snr;
    this.used = used + 1;
  }

  /** The samples sorted by time, equal times in the order they came; `null` when there are none. */
  toSeries(sources: readonly Source[]): GuidingSeries | null {
    if (this.count === 0) return null;
    const columns = Array.from({ length: COLUMNS }, (_, column) => this.whole(column));
    const [atMs, raArcsec, decArcsec, snr] = this.sorted ? columns : sortedBy(columns);
    if (!atMs || !raArcsec || !decArcsec || !snr) return null;
    return { atMs, raArcsec, decArcsec, snr, sources };
  }

  private begin(): void {
    this.full.push(this.piece);
    this.before += this.used;
    this.piece = new Float64Array(COLUMNS * PIECE);
    this.room = PIECE;
    this.used = 0;
  }

  private whole(column: number): Float64Array {
    const whole = new Float64Array(this.count);
    let at = 0;
    for (const piece of [...this.full, this.piece]) {
      const room = piece.length / COLUMNS;
      const samples = Math.min(room, this.count - at);
      whole.set(piece.subarray(column * room, column * room + samples), at);
      at += samples;
    }
    return whole;
  }
}

/** The columns with their rows in the order of the first one's values. */
function sortedBy(columns: readonly Float64Array[]): Float64Array[] {
  const key = columns[0] ?? new Float64Array();
  const order = Uint32Array.from(key.keys()).sort((a, b) => itemAt(key, a) - itemAt(key, b) || a - b);
  return columns.map((column) => Float64Array.from(order, (row) => itemAt(column, row)));
}
