import { disturbed } from './disturbed.js';
import { held } from './held.js';
import { lengths } from './lengths.js';
import { overlapping } from './overlapping.js';
import { sameFilter } from './same-filter.js';
import { savedAgain } from './saved-again.js';
import { steady } from './steady.js';
import type { Audit } from './drafted-night.js';
import { tooCommon } from './too-common.js';
import { unpaired } from './unpaired.js';

/** What is impossible on a real night, whatever the log's language. */
export const AUDITS: readonly Audit[] = [
  savedAgain,
  tooCommon,
  steady,
  overlapping,
  lengths,
  disturbed,
  sameFilter,
  held,
  unpaired,
];
