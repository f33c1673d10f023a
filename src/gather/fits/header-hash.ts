/** The identity of a frame from its header. */
import { hash } from 'node:crypto';
import type { CardValue } from './card-values.js';
import type { Keyword, KeywordTable } from './keywords.js';
import type { FitsHeader } from './read-header.js';

/**
 * A frame's identity: SHA-256 (hex) over the cards that identify an exposure (when, how long, with what) and the
 * image's size.
 *
 * Values are hashed, not bytes, and the file name is excluded: the hash is stable when a file is moved, renamed,
 * compressed to .gz or .fz, or rewritten by another program, and when later programs add cards (such as a plate
 * solution) or correct the object's name. It does not depend on a rig file's extra keywords. A header without any date
 * is hashed over every card of the keyword table. Frames with identical headers, such as bias frames within one second
 * and dates without fraction, share a hash.
 */
export function headerHash({ cards, image }: FitsHeader, { wanted, identity }: KeywordTable): string {
  const values = cards.valuesBy(wanted);
  const dates = cardLines(values, identity.dates);
  const others = cardLines(values, dates === '' ? identity.all : identity.making);
  return hash('sha256', `${dates}${others}${image?.axes.join('×') ?? ''}`, 'hex');
}

/** `KEYWORD=value`, one per line, of the cards with a value. */
function cardLines(values: readonly (CardValue | undefined)[], keywords: readonly Keyword[]): string {
  let lines = '';
  for (let i = 0; i < keywords.length; i++) {
    const { name, number } = keywords[i]!;
    const value = values[number];
    if (value !== undefined && value !== null) lines += `${name}=${value}\n`;
  }
  return lines;
}
