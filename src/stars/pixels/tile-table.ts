/** The binary table of a tile-compressed image: the offset and compression of each tile (section 10.1). */
import { NotMeasured } from '../not-measured.js';
import type { HeaderCards } from './cards.js';
import type { Quantisation } from './dither.js';
import type { RiceBytes } from './rice.js';

export type TileCodec = 'RICE_1' | 'GZIP_1' | 'GZIP_2' | 'NOCOMPRESS';

/** One variable-length column's position in a row: bytes from the row's start, with 32- or 64-bit descriptors. */
export interface HeapColumn {
  readonly at: number;
  readonly wide: boolean;
  /** Bytes of one of the elements that descriptors count. */
  readonly elementBytes: number;
}

export interface TileTable {
  readonly codec: TileCodec;
  readonly rowBytes: number;
  readonly rows: number;
  /** Offset of the heap from the table's start, and its size. */
  readonly heapAt: number;
  readonly heapBytes: number;
  readonly tileWidth: number;
  readonly tileHeight: number;
  readonly riceBytes: RiceBytes;
  readonly riceBlock: number;
  readonly packed: HeapColumn;
  /** Tiles of floats that could not be quantised. */
  readonly gzipped: HeapColumn | undefined;
  readonly unpacked: HeapColumn | undefined;
  /** Columns of doubles and of 32-bit blanks, as bytes from the row's start; else the value for all tiles. */
  readonly scale: { readonly at: number } | { readonly value: number } | undefined;
  readonly zero: { readonly at: number } | { readonly value: number } | undefined;
  readonly blank: { readonly at: number } | { readonly value: number } | undefined;
  readonly quantisation: Quantisation;
  readonly seed: number;
}

const ELEMENT_BYTES: Readonly<Record<string, number>> = {
  L: 1,
  B: 1,
  A: 1,
  I: 2,
  J: 4,
  E: 4,
  K: 8,
  D: 8,
  C: 8,
  P: 8,
  M: 16,
  Q: 16,
};
const MAX_FIELDS = 999;

/** @throws NotMeasured for unsupported codecs and layouts */
export function tileTable(cards: HeaderCards): TileTable {
  const codec = codecOf(cards);
  const rowBytes = cards.whole('NAXIS1', 1, 1_000_000);
  const rows = cards.whole('NAXIS2', 1, 2 ** 31);
  const columns = columnsOf(cards);
  const packed = heapColumn(columns.get('COMPRESSED_DATA'));
  if (packed === undefined) throw new NotMeasured('its compressed image has no column COMPRESSED_DATA: it is damaged');
  const width = cards.whole('ZNAXIS1', 1, 2 ** 31);
  for (const column of columns.values())
    if (column.at + column.bytes > rowBytes)
      throw new NotMeasured("its columns do not fit the table's rows: it is damaged");
  const heapAt = cards.whole('THEAP', 0, Number.MAX_SAFE_INTEGER, rowBytes * rows);
  const gap = Math.max(0, heapAt - rowBytes * rows);
  return {
    codec,
    rowBytes,
    rows,
    heapAt,
    heapBytes: Math.max(0, cards.whole('PCOUNT', 0, Number.MAX_SAFE_INTEGER, 0) - gap),
    tileWidth: Math.min(width, cards.whole('ZTILE1', 1, 2 ** 31, width)),
    tileHeight: Math.min(cards.whole('ZNAXIS2', 1, 2 ** 31), cards.whole('ZTILE2', 1, 2 ** 31, 1)),
    ...riceParameters(cards),
    packed,
    gzipped: heapColumn(columns.get('GZIP_COMPRESSED_DATA')),
    unpacked: heapColumn(columns.get('UNCOMPRESSED_DATA')),
    scale: columnOrCard(columns, cards, 'ZSCALE', 'D'),
    zero: columnOrCard(columns, cards, 'ZZERO', 'D'),
    blank: columnOrCard(columns, cards, 'ZBLANK', 'J'),
    quantisation: quantisationOf(cards),
    seed: cards.whole('ZDITHER0', 1, 10_000, 1),
  };
}

function codecOf(cards: HeaderCards): TileCodec {
  const name = cards.text('ZCMPTYPE') ?? '';
  if (name === 'RICE_1' || name === 'RICE_ONE') return 'RICE_1';
  if (name === 'GZIP_1' || name === 'GZIP_2' || name === 'NOCOMPRESS') return name;
  throw new NotMeasured(
    `compression ${name || 'without a name'} is not read; RICE_1, GZIP_1, GZIP_2 and NOCOMPRESS are`,
  );
}

function quantisationOf(cards: HeaderCards): Quantisation {
  const name = cards.text('ZQUANTIZ') ?? 'NO_DITHER';
  if (name === 'SUBTRACTIVE_DITHER_1' || name === 'SUBTRACTIVE_DITHER_2') return name;
  if (name === 'NO_DITHER' || name === 'NONE') return 'NO_DITHER';
  throw new NotMeasured(`quantisation ${name} is not known to the FITS standard`);
}

function riceParameters(cards: HeaderCards): { riceBytes: RiceBytes; riceBlock: number } {
  let bytes = 4;
  let block = 32;
  for (let parameter = 1; parameter <= 9; parameter++) {
    const name = cards.text(`ZNAME${parameter}`);
    if (name === 'BLOCKSIZE') block = cards.whole(`ZVAL${parameter}`, 1, 256);
    if (name === 'BYTEPIX') bytes = cards.whole(`ZVAL${parameter}`, 1, 8);
  }
  if (bytes !== 1 && bytes !== 2 && bytes !== 4) throw new NotMeasured(`Rice codes of ${bytes} bytes are not read`);
  return { riceBytes: bytes, riceBlock: block };
}

interface Column {
  readonly at: number;
  readonly bytes: number;
  readonly code: string;
  /** Of a variable-length column's elements. */
  readonly elementBytes: number;
}

function columnsOf(cards: HeaderCards): Map<string, Column> {
  const columns = new Map<string, Column>();
  let at = 0;
  for (let field = 1; field <= cards.whole('TFIELDS', 1, MAX_FIELDS); field++) {
    const form = /^(\d{0,9})([LBAIJEKDCPMQX])([LBAIJEKD])?/.exec(cards.text(`TFORM${field}`) ?? '');
    if (form === null) throw new NotMeasured(`its compressed image has no readable TFORM${field}: it is damaged`);
    const [, repeat = '', code = '', element = 'B'] = form;
    const count = repeat === '' ? 1 : Number(repeat);
    const bytes = code === 'X' ? Math.ceil(count / 8) : count * (ELEMENT_BYTES[code] ?? 0);
    columns.set(cards.text(`TTYPE${field}`) ?? '', { at, bytes, code, elementBytes: ELEMENT_BYTES[element] ?? 1 });
    at += bytes;
  }
  return columns;
}

function heapColumn(column: Column | undefined): HeapColumn | undefined {
  if (column === undefined || column.bytes === 0) return undefined;
  if (column.code !== 'P' && column.code !== 'Q') return undefined;
  return { at: column.at, wide: column.code === 'Q', elementBytes: column.elementBytes };
}

function columnOrCard(
  columns: ReadonlyMap<string, Column>,
  cards: HeaderCards,
  name: string,
  code: string,
): { at: number } | { value: number } | undefined {
  const column = columns.get(name);
  if (column !== undefined && column.bytes > 0) {
    if (column.code !== code) throw new NotMeasured(`its column ${name} is not of the kind that the standard requires`);
    return { at: column.at };
  }
  const value = cards.number(name);
  return value === undefined ? undefined : { value };
}
