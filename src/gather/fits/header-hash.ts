/**
 * A frame's identity by its header.
 */
import { hash } from 'node:crypto';
import { KEYWORDS, type Meaning } from './keywords.js';
import type { FitsHeader } from './read-header.js';

/** Any of these dates an exposure. */
const DATES: readonly Meaning[] = ['dateBegin', 'dateMiddle', 'dateEnd', 'mjdBegin', 'mjdMiddle', 'mjdEnd', 'jdBegin'];
/** What the exposure was made with: how long, through what, onto what, in what state. */
const MAKING: readonly Meaning[] = [
  'timeOfDay', 'timeScale', 'exposureSeconds', 'exposureInTimeUnit', 'filter', 'telescope', 'instrument',
  'binningX', 'binningY', 'gain', 'offset', 'sensorTemperatureC', 'focusPosition',
];

const DATE_KEYWORDS = keywordsOf(DATES);
const IDENTITY_KEYWORDS = [...DATE_KEYWORDS, ...keywordsOf(MAKING)];
const ALL_KEYWORDS = Object.values(KEYWORDS).flat();

/**
 * SHA-256 (hex) over the cards that identify an exposure: when, how long, with what, and the image's size.
 *
 * Values are hashed, not bytes, and the file's name is not among them: the hash stays when a file is moved, renamed,
 * compressed to .gz or .fz, or rewritten by another program, and when later programs add cards (a plate solution, say)
 * or correct the object's name. It does not depend on a rig file's extra keywords. A header without any date is hashed
 * over every card of the keyword table. Frames whose headers tell nothing apart, such as bias frames within one second
 * under dates without fraction, share a hash.
 */
export function headerHash(header: FitsHeader): string {
  const { cards, image } = header;
  const keywords = DATE_KEYWORDS.some((keyword) => cards.has(keyword)) ? IDENTITY_KEYWORDS : ALL_KEYWORDS;
  let identity = `${image?.axes.join('×') ?? ''}\n`;
  for (const keyword of keywords) {
    const value = cards.get(keyword);
    if (value !== undefined && value !== null) identity += `${keyword}=${value}\n`;
  }
  return hash('sha256', identity, 'hex');
}

function keywordsOf(meanings: readonly Meaning[]): string[] {
  return meanings.flatMap((meaning) => [...KEYWORDS[meaning]]);
}
