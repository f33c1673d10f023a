/**
 * Header bytes: from a plain file or the beginning of a gzip file, into memory that is used again for every file.
 */
import { BLOCK_BYTES, CARD_BYTES, findEnd, findNonText, type HeaderBytes } from './cards.js';
import { realigned } from './overlong-cards.js';

/** Bytes by position, as if the file were uncompressed. */
export interface ByteSource {
  /**
   * Copies up to `length` bytes that begin at `position` into `into`, from offset `at`.
   *
   * @returns how many were copied; 0 at the end of the file
   * @throws the system's or zlib's error
   */
  read(into: Buffer, at: number, length: number, position: number): number;
  /** Its beginning, if already in memory. */
  readonly beginning?: HeldBytes;
}

/** A buffer, and how many of its bytes have been read. */
export interface HeldBytes extends HeaderBytes {
  readonly filled: number;
}

/** Compressed bytes taken at first; a header of a few blocks needs about 2 kB. */
const FIRST_COMPRESSED_BYTES = 4096;
/** Headers deeper than this in a gzip file are not sought: the work would be that of inflating the image. */
const MAX_INFLATED_BYTES = 64 * 1024 * 1024;

/** A gzip file, inflated from its beginning and only as far as requested: twice as much compressed input each time. */
export class GzipSource implements ByteSource {
  private asked = FIRST_COMPRESSED_BYTES;
  private got = 0;
  private inflated: Buffer = Buffer.alloc(0);
  private exhausted = false;

  constructor(private readonly file: ByteSource) {}

  read(into: Buffer, at: number, length: number, position: number): number {
    while (this.inflated.length <= position && !this.exhausted) this.inflateMore();
    return position >= this.inflated.length ? 0 : this.inflated.copy(into, at, position, position + length);
  }

  private inflateMore(): void {
    const input = Buffer.allocUnsafe(this.asked);
    const got = this.file.read(input, 0, this.asked, 0);
    // Taken only now, for most sessions hold no gzip file and every module costs start-up time.
    const { constants, gunzipSync } = process.getBuiltinModule('node:zlib');
    // A sync flush at the end accepts input that stops in the middle of the stream.
    this.inflated = gunzipSync(input.subarray(0, got), { finishFlush: constants.Z_SYNC_FLUSH });
    this.exhausted = got === this.got || this.inflated.length >= MAX_INFLATED_BYTES;
    this.got = got;
    this.asked *= 2;
  }
}

/** Whether bytes begin with the signature of gzip (RFC 1952). */
export function isGzip(bytes: Buffer, length: number): boolean {
  return length >= 2 && bytes[0] === 0x1f && bytes[1] === 0x8b;
}

/** Initial read of the first header: three blocks hold 108 cards, more than most have. */
const FIRST_READ_BYTES = 3 * BLOCK_BYTES;
/** Extra bytes read beyond the length of the previous header: headers of a night differ by a few cards. */
const SLACK_BYTES = 8 * CARD_BYTES;
/** No header is sought beyond this: about 26,000 cards. */
export const MAX_HEADER_BYTES = 720 * BLOCK_BYTES;
/** How far END is sought after a card that is not text. */
const NON_TEXT_MARGIN_BYTES = 10 * BLOCK_BYTES;

/** How a header unit ends. */
export type HeaderEnding =
  | 'end-card'
  /** The file stops before END. */
  | 'truncated'
  /** Pixels, or something else that is no card, follow without END. */
  | 'no-end-card'
  /** Cards without END as far as it was sought. */
  | 'too-long';

/** A header unit in memory. */
export interface HeaderUnit {
  /** Number of cards before END, or before whatever replaces it. */
  readonly cardCount: number;
  /** Cards longer than 80 bytes, by their keywords, which were cut. */
  readonly overlong: readonly string[];
  /** Length with END, without the fill of its last block. */
  readonly byteLength: number;
  readonly ending: HeaderEnding;
}

/** What is needed of a header that is cut was read, and its places in the file are not those in memory. */
const NOTHING_MORE: ByteSource = { read: () => 0 };

/** Memory for one header unit; grows to the largest header met. */
export class HeaderMemory implements HeaderBytes {
  bytes: Buffer = Buffer.alloc(0);
  words: Int32Array = new Int32Array(0);
  /** Buffer with the bytes read. */
  filled = 0;
  /** Destination of reads if no source holds its beginning. */
  private own: HeaderBytes = inWords(FIRST_READ_BYTES);
  /** How much to read at first, by the header before. */
  private expected = FIRST_READ_BYTES;

  /** What will be read of the next header at first. */
  get expectedBytes(): number {
    return this.expected;
  }

  /** Whole cards that were read. */
  get cardCount(): number {
    return Math.floor(this.filled / CARD_BYTES);
  }

  /**
   * Reads the first blocks of a header unit, replacing the previous ones.
   *
   * @returns bytes read; 0 at the end
   */
  begin(source: ByteSource, position: number): number {
    const held = position === 0 ? source.beginning : undefined;
    const { bytes, words } = held ?? this.own;
    this.bytes = bytes;
    this.words = words;
    this.filled = held?.filled ?? source.read(bytes, 0, this.expected, position);
    return this.filled;
  }

  /** Takes note of a header's length, so that one read will do for the next of its kind. */
  expectLike(headerBytes: number): void {
    this.expected = headerBytes + SLACK_BYTES;
    if (this.expected > this.own.bytes.length) this.own = inWords(this.expected);
  }

  /** Drops the first bytes, so that a header behind a byte order mark or other leading bytes starts at offset 0. */
  dropLeading(count: number): void {
    // The source's own beginning stays as it is: more may be read of it.
    const { bytes, words } = inWords(Math.max(this.filled, this.expected));
    this.filled = this.bytes.copy(bytes, 0, count, this.filled);
    this.own = { bytes, words };
    this.bytes = bytes;
    this.words = words;
  }

  /**
   * Finds the end of the unit begun, and reads on as far as that takes; where it has none because cards are too long,
   * with these cut.
   *
   * @param position offset in the source of the byte at offset 0
   */
  complete(source: ByteSource, position: number): HeaderUnit {
    const whole = this.endOf(source, position);
    if (whole.ending === 'end-card') return whole;
    const overlong = this.realign();
    return overlong.length === 0 ? whole : { ...this.endOf(NOTHING_MORE, position), overlong };
  }

  private endOf(source: ByteSource, position: number): HeaderUnit {
    let searched = 0;
    let limit = MAX_HEADER_BYTES;
    for (;;) {
      const whole = this.cardCount;
      const end = findEnd(this.words, searched, whole);
      if (end !== -1) return unit(end, end + 1, 'end-card');
      searched = whole;

      const nonText = findNonText(this.words, whole);
      if (nonText !== -1) limit = Math.min(limit, nonText * CARD_BYTES + NON_TEXT_MARGIN_BYTES);
      const cards = nonText === -1 ? whole : nonText;
      if (this.filled >= limit) return unit(cards, cards, nonText === -1 ? 'too-long' : 'no-end-card');
      if (!this.readMore(source, position)) return unit(cards, cards, nonText === -1 ? 'truncated' : 'no-end-card');
    }
  }

  /**
   * Cuts cards that are longer than 80 bytes, so that those after them begin where they should.
   *
   * @returns the keywords of these cards; none if every card has its length
   */
  private realign(): readonly string[] {
    const found = realigned(this.bytes.subarray(0, this.filled));
    if (found === null) return [];
    // The source's own beginning stays as it is.
    this.own = inWords(Math.max(this.filled, this.expected));
    this.filled = found.bytes.copy(this.own.bytes);
    this.own.bytes.fill(' ', this.filled);
    this.bytes = this.own.bytes;
    this.words = this.own.words;
    return found.overlong;
  }

  private readMore(source: ByteSource, position: number): boolean {
    this.reserve(this.filled * 2);
    const got = source.read(this.bytes, this.filled, this.bytes.length - this.filled, position + this.filled);
    this.filled += got;
    return got > 0;
  }

  /** Makes room for more of the unit begun. */
  private reserve(length: number): void {
    if (length <= this.bytes.length) return;
    this.own = inWords(length);
    this.bytes.copy(this.own.bytes, 0, 0, this.filled);
    this.bytes = this.own.bytes;
    this.words = this.own.words;
  }
}

/** A buffer of this many bytes, in whole blocks. */
function inWords(length: number): HeaderBytes {
  const memory = new ArrayBuffer(Math.ceil(length / BLOCK_BYTES) * BLOCK_BYTES);
  return { bytes: Buffer.from(memory), words: new Int32Array(memory) };
}

function unit(cardCount: number, cardsWithEnd: number, ending: HeaderEnding): HeaderUnit {
  return { cardCount, byteLength: cardsWithEnd * CARD_BYTES, ending, overlong: [] };
}
