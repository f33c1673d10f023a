import { card } from './card.js';
import type { Format } from './format.js';
import { frames } from './frames.js';
import { summary } from './summary.js';

export type { Format, FormatContext } from './format.js';

/** Every export in addition to the report itself. */
export const FORMATS = [summary, card, frames] as const satisfies readonly Format[];
