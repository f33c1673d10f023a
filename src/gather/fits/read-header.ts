/**
 * Reads the header of a FITS file: of the primary unit, and of the first image extension where the primary
 * holds no image. Pixels are never read, and of a gzip file only the beginning is inflated and the stated length read.
 *
 * Opening, reading and closing are synchronous: on a local disk that takes half the time of asynchronous calls.
 */
import type { Beginning } from './ahead-ring.js';
import { BLOCK_BYTES, CARD_BYTES, type Cards, keywordsIn, parseCards } from './cards.js';
import { BegunSource, FileSource } from './file-source.js';
import { statesOtherLength } from './gzip-length.js';
import {
  type ByteSource,
  GzipSource,
  HeaderMemory,
  type HeaderEnding,
  isGzip,
  MAX_HEADER_BYTES,
} from './header-memory.js';
import {
  dataBytes,
  hasPixels,
  type ImageShape,
  OWN_SHAPE,
  paddedBytes,
  readShape,
  TILED_SHAPE,
} from './image-shape.js';
import { type KeywordSet, keywordWords, spells } from './keyword-set.js';
import { mergedCards } from './merged-cards.js';
import * as oddities from './notes.js';
import type { HeaderNote } from './notes.js';

/** Extensions looked into before giving up on an image. */
const MAX_EXTENSIONS = 64;
const FIRST_CARD = 'SIMPLE  =';
const SIMPLE_WORDS = keywordWords('SIMPLE');
const XTENSION_WORDS = keywordWords('XTENSION');

/** A header that was read. */
export interface FitsHeader {
  /**
   * Keyword → value. If the image is in an extension its cards override the primary's; of a tile-compressed image
   * BITPIX, NAXIS and NAXISn are the image's own, not the table's.
   */
  readonly cards: Cards;
  /** `null` when the file holds no image, or its size makes no sense. */
  readonly image: ImageShape | null;
  /** Size of the file on disk. */
  readonly sizeBytes: number;
  /** Notes on the header; empty for an ordinary one. */
  readonly notes: readonly HeaderNote[];
  /**
   * Inflated size of header and image, if the end of a gzip file does not show that it contains them: see
   * `missingWhenInflated`.
   */
  readonly unprovenBytes?: number;
}

/** A header, or the reason why there is none. */
export type HeaderResult =
  | { readonly ok: true; readonly header: FitsHeader }
  | { readonly ok: false; readonly problem: HeaderNote };

/** Used again for every file: reading is synchronous, so no two headers are in it at once. */
let sharedMemory: HeaderMemory | undefined;

/**
 * Reads a file's header. Never throws for the type or contents of a file: that is a result with a problem.
 *
 * @param path file to read: plain, gzip or tile-compressed FITS, distinguished by content
 * @param wanted keywords to read, as a `keywordTable` has them; `null` (the default) reads every card that has a value
 * @param beginning of the file, if read ahead
 */
export function readHeader(path: string, wanted: KeywordSet | null = null, beginning?: Beginning): HeaderResult {
  let source: FileSource | BegunSource | undefined;
  try {
    if (beginning !== undefined) {
      source = new BegunSource(path, beginning);
      return readFrom(source, beginning.sizeBytes, wanted);
    }
    source = new FileSource(path);
    const file = source.stat();
    if (!file.isFile()) return { ok: false, problem: oddities.notAFile(file.isDirectory()) };
    return readFrom(source, file.size, wanted);
  } catch (error) {
    return { ok: false, problem: oddities.fromError(error) };
  } finally {
    source?.close();
  }
}

/** Initial read size for the next file, estimated from previous headers. */
export function expectedBytes(): number {
  return memoryOfAll().expectedBytes;
}

function memoryOfAll(): HeaderMemory {
  sharedMemory ??= new HeaderMemory();
  return sharedMemory;
}

function readFrom(file: ByteSource, sizeBytes: number, wanted: KeywordSet | null): HeaderResult {
  const memory = memoryOfAll();
  let source = file;
  if (memory.begin(source, 0) === 0) return { ok: false, problem: oddities.emptyFile() };
  const compressed = isGzip(memory.bytes, memory.filled);
  if (compressed) {
    source = new GzipSource(source);
    memory.begin(source, 0);
  }

  const notes: HeaderNote[] = [];
  const leading = findFirstCard(memory);
  if (leading === -1) return { ok: false, problem: oddities.notFits() };
  if (leading > 0) {
    memory.dropLeading(leading);
    notes.push(oddities.leadingBytes(leading));
  }

  const primary = readUnit(memory, source, leading, wanted, notes);
  if (!primary.cards.has('NAXIS')) {
    return { ok: false, problem: primary.ending === 'truncated' ? oddities.headerStump() : oddities.damagedHeader() };
  }
  if (primary.cards.get('SIMPLE') !== true) notes.push(oddities.nonstandard());
  const found = findImage(memory, source, primary, wanted, notes);

  const { cards, image, endsAt } = found;
  if (!compressed && endsAt > sizeBytes) notes.push(oddities.truncatedFile(sizeBytes, endsAt));
  const header = { cards, image, sizeBytes, notes };
  const isUnproven = compressed && endsAt > 0 && statesOtherLength(file, sizeBytes, endsAt);
  return { ok: true, header: isUnproven ? { ...header, unprovenBytes: endsAt } : header };
}

/** One header with its data unit. */
interface Unit {
  readonly cards: Cards;
  readonly ending: HeaderEnding;
  /** `null` when the cards that give it make no sense. */
  readonly shape: ImageShape | null;
  /** First byte after the data, without fill; 0 when unknown. */
  readonly endsAt: number;
}

interface FoundImage {
  readonly cards: Cards;
  readonly image: ImageShape | null;
  readonly endsAt: number;
}

/** Reads the header unit whose first blocks are in memory. */
function readUnit(
  memory: HeaderMemory,
  source: ByteSource,
  position: number,
  wanted: KeywordSet | null,
  notes: HeaderNote[],
): Unit {
  const { cards, ending, byteLength } = readCards(memory, source, position, wanted, notes);
  if (ending !== 'end-card') {
    notes.push(oddities.withoutEnd(ending, MAX_HEADER_BYTES));
    if (!cards.has('NAXIS')) return { cards, ending, shape: null, endsAt: 0 };
  }
  const shape = readShape(cards, OWN_SHAPE);
  if ('code' in shape) {
    notes.push(shape);
    return { cards, ending, shape: null, endsAt: 0 };
  }
  if (ending !== 'end-card') return { cards, ending, shape, endsAt: 0 };
  if (hasPixels(shape)) memory.expectLike(byteLength);
  return { cards, ending, shape, endsAt: position + paddedBytes(byteLength) + dataBytes(cards, shape) };
}

/** Nearly every header ends within the first blocks and is parsed in one pass; only others are measured first. */
function readCards(
  memory: HeaderMemory,
  source: ByteSource,
  position: number,
  wanted: KeywordSet | null,
  notes: HeaderNote[],
) {
  if (wanted !== null) {
    const found: HeaderNote[] = [];
    const { cards, end } = parseCards(memory, memory.cardCount, wanted, found);
    if (end !== -1) {
      notes.push(...found);
      return { cards, ending: 'end-card' as const, byteLength: (end + 1) * CARD_BYTES };
    }
  }
  const { cardCount, ending, byteLength, overlong } = memory.complete(source, position);
  if (overlong.length > 0) notes.push(oddities.overlongCards(overlong));
  const { cards } = parseCards(memory, cardCount, wanted ?? keywordsIn(memory, cardCount), notes);
  return { cards, ending, byteLength };
}

/** The primary's own image, or that of the first extension which holds one. */
function findImage(
  memory: HeaderMemory,
  source: ByteSource,
  primary: Unit,
  wanted: KeywordSet | null,
  notes: HeaderNote[],
): FoundImage {
  const { cards, shape, endsAt } = primary;
  if (shape === null) return { cards, image: null, endsAt: 0 };
  if (hasPixels(shape)) return { cards, image: shape, endsAt };
  if (endsAt === 0) return { cards, image: null, endsAt };

  let position = paddedBytes(endsAt);
  for (let extension = 0; extension < MAX_EXTENSIONS && memory.begin(source, position) > 0; extension++) {
    if (!beginsWith(memory, XTENSION_WORDS)) break;
    const unit = readUnit(memory, source, position, wanted, notes);
    const image = unit.shape === null ? null : imageOf(unit.cards, unit.shape, notes);
    if (image !== null) return { cards: mergedCards(cards, unit.cards, image, wanted), image, endsAt: unit.endsAt };
    if (unit.endsAt === 0) break;
    position = paddedBytes(unit.endsAt);
  }
  notes.push(oddities.noImage());
  return { cards, image: null, endsAt };
}

/** The image an extension holds: an IMAGE extension's, or the one a binary table holds in compressed tiles. */
function imageOf(cards: Cards, shape: ImageShape, notes: HeaderNote[]): ImageShape | null {
  if (cards.get('ZIMAGE') === true) {
    const compressed = readShape(cards, TILED_SHAPE);
    if (!('code' in compressed)) return hasPixels(compressed) ? compressed : null;
    notes.push(compressed);
    return null;
  }
  return cards.get('XTENSION') === 'IMAGE' && hasPixels(shape) ? shape : null;
}

/**
 * Where the first card begins: 0 in a good file, more behind a byte order mark or other leading bytes, −1 when there is
 * none.
 */
function findFirstCard(memory: HeaderMemory): number {
  if (beginsWith(memory, SIMPLE_WORDS)) return 0;
  const { bytes, filled } = memory;
  return bytes.subarray(0, Math.min(filled, BLOCK_BYTES)).indexOf(FIRST_CARD, 0, 'latin1');
}

function beginsWith({ words, filled }: HeaderMemory, keyword: readonly [number, number]): boolean {
  return filled >= CARD_BYTES && spells(words[0] as number, words[1] as number, keyword);
}
