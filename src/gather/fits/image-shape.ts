/**
 * The size of the data that follows a header (FITS Standard 4.0, section 4.4.1), and of a tile-compressed image
 * as it was before compression (section 10.1).
 */
import type { CardValue } from './card-values.js';
import { BLOCK_BYTES, type Cards } from './cards.js';
import { type HeaderNote, show } from './notes.js';

const MAX_AXES = 9;
/** Longer than any sensor or mosaic; a larger number is a slip or a damaged header. */
const MAX_AXIS_LENGTH = 10_000_000;
const BITPIX_VALUES: readonly CardValue[] = [8, 16, 32, 64, -32, -64];

/** Keywords that give the shape of an image. */
export interface ShapeKeywords {
  readonly bitpix: string;
  readonly count: string;
  readonly axes: readonly string[];
}

/** Of the data unit that follows. */
export const OWN_SHAPE = shapeKeywords('');
/** Of the image that a binary table holds in compressed tiles. */
export const TILED_SHAPE = shapeKeywords('Z');

/** Keywords that describe the layout of a data unit; always needed. */
export const STRUCTURE_KEYWORDS: readonly string[] = [
  'SIMPLE',
  'XTENSION',
  'PCOUNT',
  'GCOUNT',
  'ZIMAGE',
  ...[OWN_SHAPE, TILED_SHAPE].flatMap(({ bitpix, count, axes }) => [bitpix, count, ...axes]),
];

/** Bits per pixel by BITPIX's code, and the length of every axis, NAXIS1 first. */
export interface ImageShape {
  readonly bitpix: number;
  readonly axes: readonly number[];
}

/**
 * Reads the bits per pixel and the length of every axis.
 *
 * @returns the shape, or the note on the card that makes no sense
 */
export function readShape(cards: Cards, keywords: ShapeKeywords): ImageShape | HeaderNote {
  const bitpix = cards.get(keywords.bitpix);
  if (typeof bitpix !== 'number' || !BITPIX_VALUES.includes(bitpix)) return absurdSize(cards, keywords.bitpix);
  const count = cards.get(keywords.count);
  if (!isWholeBetween(count, MAX_AXES)) return absurdSize(cards, keywords.count);
  const axes: number[] = [];
  for (const keyword of keywords.axes) {
    if (axes.length === count) break;
    const length = cards.get(keyword);
    if (!isWholeBetween(length, MAX_AXIS_LENGTH)) return absurdSize(cards, keyword);
    axes.push(length);
  }
  return { bitpix, axes };
}

function shapeKeywords(prefix: string): ShapeKeywords {
  return {
    bitpix: `${prefix}BITPIX`,
    count: `${prefix}NAXIS`,
    axes: Array.from({ length: MAX_AXES }, (_, axis) => `${prefix}NAXIS${axis + 1}`),
  };
}

/** Whether any pixel follows: no axes, or one of length 0, mean none. */
export function hasPixels(shape: ImageShape): boolean {
  return shape.axes.length > 0 && !shape.axes.includes(0);
}

/** Bytes of the data unit without the fill of its last block (equations 1 and 2 of the standard). */
export function dataBytes(cards: Cards, shape: ImageShape): number {
  if (!hasPixels(shape)) return 0;
  const elements = shape.axes.reduce((product, length) => product * length, 1);
  const groups = numberOr(cards.get('GCOUNT'), 1);
  const parameters = numberOr(cards.get('PCOUNT'), 0);
  return (Math.abs(shape.bitpix) / 8) * groups * (parameters + elements);
}

/** The same in whole blocks: where the next header begins. */
export function paddedBytes(bytes: number): number {
  return Math.ceil(bytes / BLOCK_BYTES) * BLOCK_BYTES;
}

function isWholeBetween(value: CardValue | undefined, largest: number): value is number {
  return typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= largest;
}

function numberOr(value: CardValue | undefined, otherwise: number): number {
  return typeof value === 'number' && value >= 0 ? value : otherwise;
}

function absurdSize(cards: Cards, card: string): HeaderNote {
  const value = cards.get(card);
  return {
    code: 'absurd-size',
    card,
    what:
      value === undefined
        ? `the mandatory card ${card} is missing, so the image size is unknown`
        : `${card} is ${show(value)}, which is impossible for an image, so the image size is unknown`,
    remedy: 'The header is damaged: copy the file again from the camera computer, or set the frame aside.',
  };
}
