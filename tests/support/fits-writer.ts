/**
 * A small FITS writer for tests and sample sessions, after the FITS Standard 4.0. It shares no code with the reader.
 *
 * It writes fixed-format cards, CONTINUE for long strings, HIERARCH for long keywords, images of every BITPIX, gzip files
 * and tile-compressed images (GZIP_1, one tile a row).
 */
import { gzipSync } from 'node:zlib';

const CARD_BYTES = 80;
const BLOCK_BYTES = 2880;
const KEYWORD_BYTES = 8;
/** Longest quoted string on one card after `KEYWORD = `, quotes included. */
const STRING_ROOM = 70;
/** Column in which a fixed-format number or logical ends. */
const FIELD_END = 30;

export type CardInput =
  /** Keyword, value, comment. `null` writes a card without a value. */
  | readonly [keyword: string, value: string | number | boolean | null, comment?: string]
  /** A card as it shall stand, padded to 80 characters: commentary, or something odd. Latin-1. */
  | string;

export type Bitpix = 8 | 16 | 32 | 64 | -32 | -64;

export interface ImageInput {
  /** Cards after the mandatory ones. */
  readonly cards: readonly CardInput[];
  readonly width: number;
  readonly height: number;
  /** 16 stands for unsigned pixels under BZERO 32768, as cameras write them. */
  readonly bitpix: Bitpix;
  /** Physical values, row by row, `width × height` of them; zeros when absent. */
  readonly pixels?: ArrayLike<number>;
}

/**
 * Writes an image in the primary unit.
 *
 * @throws RangeError when a card cannot be written within the standard
 */
export function writeFits(image: ImageInput & { readonly gzip?: boolean }): Buffer {
  const file = Buffer.concat([
    headerUnit([
      ['SIMPLE', true, 'conforms to the FITS standard'],
      ...shapeCards(image),
      ...scaleCards(image),
      ...image.cards,
    ]),
    dataUnit(encodePixels(image)),
  ]);
  return image.gzip === true ? gzipSync(file) : file;
}

/** Writes a primary unit without an image, and the image in an extension after it. */
export function writeExtension(image: ImageInput & { readonly primaryCards?: readonly CardInput[] }): Buffer {
  return Buffer.concat([
    emptyPrimary(image.primaryCards ?? []),
    headerUnit([
      ['XTENSION', 'IMAGE   ', 'image extension'],
      ...shapeCards(image),
      ['PCOUNT', 0],
      ['GCOUNT', 1],
      ...scaleCards(image),
      ...image.cards,
    ]),
    dataUnit(encodePixels(image)),
  ]);
}

/**
 * Writes a tile-compressed image (section 10.1): an empty primary unit, then a binary table whose heap holds
 * each row of the image as a gzip stream.
 */
export function writeFz(image: ImageInput): Buffer {
  const { width, height, bitpix } = image;
  const pixels = encodePixels(image);
  const rowBytes = (width * Math.abs(bitpix)) / 8;
  const tiles = Array.from({ length: height }, (_, row) =>
    gzipSync(pixels.subarray(row * rowBytes, (row + 1) * rowBytes)),
  );
  const descriptors = Buffer.alloc(height * 8);
  let heapBytes = 0;
  tiles.forEach((tile, row) => {
    descriptors.writeInt32BE(tile.length, row * 8);
    descriptors.writeInt32BE(heapBytes, row * 8 + 4);
    heapBytes += tile.length;
  });
  const longest = tiles.reduce((length, tile) => Math.max(length, tile.length), 0);
  return Buffer.concat([
    emptyPrimary([]),
    headerUnit([
      ['XTENSION', 'BINTABLE', 'binary table extension'],
      ['BITPIX', 8],
      ['NAXIS', 2],
      ['NAXIS1', 8],
      ['NAXIS2', height],
      ['PCOUNT', heapBytes],
      ['GCOUNT', 1],
      ['TFIELDS', 1],
      ['TTYPE1', 'COMPRESSED_DATA'],
      ['TFORM1', `1PB(${longest})`],
      ['ZIMAGE', true],
      ['ZSIMPLE', true],
      ['ZBITPIX', bitpix],
      ['ZNAXIS', 2],
      ['ZNAXIS1', width],
      ['ZNAXIS2', height],
      ['ZTILE1', width],
      ['ZTILE2', 1],
      ['ZCMPTYPE', 'GZIP_1'],
      ...scaleCards(image),
      ...image.cards,
    ]),
    dataUnit(Buffer.concat([descriptors, ...tiles])),
  ]);
}

/** A header unit: the cards, END, and spaces to whole blocks. */
export function headerUnit(cards: readonly CardInput[]): Buffer {
  const text = [...cards.flatMap(cardImages), 'END'.padEnd(CARD_BYTES)].join('');
  return Buffer.from(text.padEnd(wholeBlocks(text.length)), 'latin1');
}

/** A data unit: the bytes, and zeros to whole blocks. */
export function dataUnit(bytes: Buffer): Buffer {
  return Buffer.concat([bytes], wholeBlocks(bytes.length));
}

/** A primary unit that holds no image. */
export function emptyPrimary(cards: readonly CardInput[]): Buffer {
  return headerUnit([
    ['SIMPLE', true, 'conforms to the FITS standard'],
    ['BITPIX', 8],
    ['NAXIS', 0],
    ['EXTEND', true],
    ...cards,
  ]);
}

/**
 * The 80-character images of one card; several when a string needs CONTINUE.
 *
 * @throws RangeError for text outside printable ASCII, numbers that are not finite, and keywords that FITS cannot have
 */
export function cardImages(card: CardInput): string[] {
  if (typeof card === 'string') {
    if (card.length > CARD_BYTES) throw new RangeError(`a card has 80 characters, got ${card.length}: ${card}`);
    return [card.padEnd(CARD_BYTES)];
  }
  const [keyword, value, comment] = card;
  const name = keywordField(keyword);
  if (comment !== undefined) requireText(comment);
  if (typeof value === 'string') return stringImages(name, value, comment);
  const field = value === null ? '' : formatScalar(value);
  // Long HIERARCH names push the value beyond column 30.
  return [withComment(name + field.padStart(FIELD_END - name.length), comment)];
}

function stringImages(name: string, value: string, comment: string | undefined): string[] {
  requireText(value);
  const quoted = value.replaceAll("'", "''");
  const room = CARD_BYTES - name.length;
  if (quoted.length + 2 <= room) return [withComment(`${name}'${quoted.padEnd(Math.min(8, room - 2))}'`, comment)];

  const pieces: string[] = [];
  let rest = quoted;
  let space = room - 3;
  while (rest.length > space) {
    let cut = space;
    // The two halves of a doubled quote stay on one card.
    const quotesBeforeCut = /'*$/.exec(rest.slice(0, cut))?.[0].length ?? 0;
    if (quotesBeforeCut % 2 === 1) cut--;
    pieces.push(rest.slice(0, cut));
    rest = rest.slice(cut);
    space = STRING_ROOM - 3;
  }
  const [first = '', ...others] = [...pieces.map((piece) => `'${piece}&'`), `'${rest}'`];
  const continued = others.map((piece) => `CONTINUE  ${piece}`);
  const images = [name + first, ...continued];
  return images.map((image, index) => withComment(image, index === images.length - 1 ? comment : undefined));
}

function keywordField(keyword: string): string {
  if (keyword.length <= KEYWORD_BYTES && /^[A-Z0-9_-]+$/.test(keyword)) return `${keyword.padEnd(KEYWORD_BYTES)}= `;
  if (/^[A-Z0-9_-]+(?: [A-Z0-9_-]+)*$/.test(keyword) && keyword.length <= 50) return `HIERARCH ${keyword} = `;
  throw new RangeError(`no FITS keyword: '${keyword}'`);
}

function formatScalar(value: number | boolean): string {
  if (typeof value === 'boolean') return value ? 'T' : 'F';
  if (!Number.isFinite(value))
    throw new RangeError(`FITS has no card for the number ${value}; write it as text if that is meant`);
  return String(value).replace('e+', 'E').replace('e', 'E');
}

/** Comments are cut at the end of the card, as the standard has no way to continue them here. */
function withComment(image: string, comment: string | undefined): string {
  const full = comment === undefined ? image : `${image.padEnd(FIELD_END)} / ${comment}`;
  return full.slice(0, CARD_BYTES).padEnd(CARD_BYTES);
}

function requireText(text: string): void {
  if (!/^[ -~]*$/.test(text)) throw new RangeError(`FITS text is printable ASCII, got ${JSON.stringify(text)}`);
}

function shapeCards({ bitpix, width, height }: ImageInput): CardInput[] {
  return [
    ['BITPIX', bitpix, 'bits per pixel'],
    ['NAXIS', 2],
    ['NAXIS1', width],
    ['NAXIS2', height],
  ];
}

function scaleCards({ bitpix }: ImageInput): CardInput[] {
  return bitpix === 16
    ? [
        ['BZERO', 32768, 'unsigned 16-bit pixels'],
        ['BSCALE', 1],
      ]
    : [];
}

/** Pixels big-endian, as FITS has them, without fill. */
function encodePixels({ width, height, bitpix, pixels }: ImageInput): Buffer {
  const count = width * height;
  if (pixels !== undefined && pixels.length !== count)
    throw new RangeError(`${width} × ${height} pixels wanted, got ${pixels.length}`);
  const bytes = Buffer.alloc((count * Math.abs(bitpix)) / 8);
  if (bitpix === 16) return encodeUnsigned(bytes, pixels);
  if (pixels === undefined) return bytes;
  for (let pixel = 0; pixel < count; pixel++) {
    const value = pixels[pixel] ?? 0;
    switch (bitpix) {
      case 8:
        bytes.writeUInt8(value, pixel);
        break;
      case 32:
        bytes.writeInt32BE(value, pixel * 4);
        break;
      case 64:
        bytes.writeBigInt64BE(BigInt(value), pixel * 8);
        break;
      case -32:
        bytes.writeFloatBE(value, pixel * 4);
        break;
      case -64:
        bytes.writeDoubleBE(value, pixel * 8);
        break;
    }
  }
  return bytes;
}

/** Pixels of 0 to 65535: nearly all that tests write, and megapixels of them. */
function encodeUnsigned(bytes: Buffer, pixels: ArrayLike<number> | undefined): Buffer {
  if (pixels === undefined) {
    // The number −32768, big-endian.
    for (let at = 0; at < bytes.length; at += 2) bytes[at] = 0x80;
    return bytes;
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let pixel = 0; pixel < pixels.length; pixel++) {
    const value = pixels[pixel]!;
    if (!(value >= 0 && value <= 65_535)) throw new RangeError(`no unsigned number of 16 bits: ${value}`);
    view.setInt16(2 * pixel, value - 32_768);
  }
  return bytes;
}

function wholeBlocks(bytes: number): number {
  return Math.ceil(bytes / BLOCK_BYTES) * BLOCK_BYTES;
}
