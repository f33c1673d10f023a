import type { EventName } from '../../../../model/index.js';

/** What a program does immediately afterwards, and may report on the same line (common practice, no source). */
export const NEXT: Readonly<Partial<Record<EventName, readonly EventName[]>>> = {
  'exposure-end': ['dither-ready'],
  'dither-end': ['settling-begin'],
  'slew-end': ['centre-begin'],
  'centre-end': ['guiding-begin'],
  'guiding-begin': ['settling-begin'],
  'guiding-rest-begin': ['focus-begin'],
  'focus-end': ['guiding-rest-end'],
  'guiding-rest-end': ['settling-begin'],
};
