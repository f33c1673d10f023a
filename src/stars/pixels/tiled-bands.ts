/** Bands of a tile-compressed image; only tiles that overlap the requested rows are unpacked. */
import { NotMeasured } from '../not-measured.js';
import type { BandSpan, Samples } from './bands.js';
import type { TiledUnit } from './image-unit.js';
import { keepsIntegers } from './samples.js';
import { type PackedTile, type TileNumbers, unpackTile } from './tile-codec.js';
import { type HeapColumn, type TileTable, tileTable } from './tile-table.js';

/** Reads bytes of a file from an offset. @throws NotMeasured when the file ends before */
export type ReadAt = (offset: number, length: number) => Buffer;

export class TiledBands {
  private readonly table: TileTable;
  private readonly across: number;
  private readonly down: number;
  /** Tiles that extend beyond the last band, so that tall ones are unpacked once. */
  private readonly kept = new Map<number, TileNumbers>();

  constructor(
    private readonly unit: TiledUnit,
    private readonly readAt: ReadAt,
    fileBytes: number,
  ) {
    this.table = tileTable(unit.cards);
    this.across = Math.ceil(unit.width / this.table.tileWidth);
    this.down = Math.ceil(unit.height / this.table.tileHeight);
    const planes = unit.plane === 0 ? 1 : 3;
    const depth = unit.cards.whole('ZTILE3', 1, 3, 1);
    if (depth !== 1) throw new NotMeasured('its tiles reach over several planes, which is not read');
    if (this.table.rows < this.across * this.down * planes)
      throw new NotMeasured('its compressed image has fewer tiles than it needs: the file is damaged');
    if (unit.offset + this.table.heapAt + this.table.heapBytes > fileBytes)
      throw new NotMeasured('the file is shorter than its header states: copy it again from the camera computer');
  }

  /** Fills the samples of one band. */
  read(span: BandSpan, samples: Samples): void {
    const { tileWidth, tileHeight } = this.table;
    const lastDown = Math.floor((span.end - 1) / tileHeight);
    for (let down = Math.floor(span.first / tileHeight); down <= lastDown; down++)
      for (let column = 0; column < this.across; column++) {
        const number = (this.unit.plane * this.down + down) * this.across + column;
        const left = column * tileWidth;
        const top = down * tileHeight;
        const width = Math.min(tileWidth, this.unit.width - left);
        const height = Math.min(tileHeight, this.unit.height - top);
        const numbers = this.kept.get(number) ?? unpackTile(this.packed(number), this.unit.bitpix, width * height);
        if (top + height > span.end) this.kept.set(number, numbers);
        else this.kept.delete(number);
        const from = Math.max(top, span.first);
        const to = Math.min(top + height, span.end);
        for (let row = from; row < to; row++) {
          const start = (row - top) * width;
          this.place(numbers.subarray(start, start + width), samples, (row - span.first) * this.unit.width + left);
        }
      }
  }

  private place(numbers: TileNumbers, samples: Samples, at: number): void {
    if (keepsIntegers(this.unit)) {
      samples.set(numbers, at);
      return;
    }
    const { scale, zero, blank } = this.unit;
    for (let i = 0; i < numbers.length; i++) {
      const number = numbers[i] as number;
      const value = number === blank ? NaN : zero + scale * number;
      samples[at + i] = value - value === 0 ? value : NaN;
    }
  }

  private packed(number: number): PackedTile {
    const { table } = this;
    const row = this.readAt(this.unit.offset + number * table.rowBytes, table.rowBytes);
    const common = { riceBytes: table.riceBytes, riceBlock: table.riceBlock };
    const codes = this.heapBytes(row, table.packed);
    const scale = parameter(table.scale, (at) => row.readDoubleBE(at));
    if (codes !== undefined) {
      if (this.unit.bitpix > 0 || scale === undefined) return { ...common, codec: table.codec, bytes: codes };
      const quantised = {
        method: table.quantisation,
        scale,
        zero: parameter(table.zero, (at) => row.readDoubleBE(at)) ?? 0,
        blank: parameter(table.blank, (at) => row.readInt32BE(at)),
        seed: table.seed,
        row: number + 1,
      };
      return { ...common, codec: table.codec, bytes: codes, quantised };
    }
    const gzipped = table.gzipped === undefined ? undefined : this.heapBytes(row, table.gzipped);
    if (gzipped !== undefined) return { ...common, codec: 'GZIP_1', bytes: gzipped };
    const unpacked = table.unpacked === undefined ? undefined : this.heapBytes(row, table.unpacked);
    if (unpacked !== undefined) return { ...common, codec: 'NOCOMPRESS', bytes: unpacked };
    throw new NotMeasured('a tile of its compressed image is empty: the file is damaged');
  }

  /** The bytes that a row's descriptor points to; `undefined` if there are none. */
  private heapBytes(row: Buffer, column: HeapColumn): Buffer | undefined {
    const elements = column.wide ? Number(row.readBigInt64BE(column.at)) : row.readInt32BE(column.at);
    const start = column.wide ? Number(row.readBigInt64BE(column.at + 8)) : row.readInt32BE(column.at + 4);
    const length = elements * column.elementBytes;
    if (length === 0) return undefined;
    if (length < 0 || start < 0 || start + length > this.table.heapBytes)
      throw new NotMeasured('a tile of its compressed image lies outside the file: it is damaged');
    return this.readAt(this.unit.offset + this.table.heapAt + start, length);
  }
}

function parameter(
  place: { readonly at: number } | { readonly value: number } | undefined,
  read: (at: number) => number,
): number | undefined {
  if (place === undefined) return undefined;
  return 'value' in place ? place.value : read(place.at);
}
