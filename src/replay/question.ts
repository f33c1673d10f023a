import type { WhatIfGroup } from '../model/index.js';
import type { Setting } from './settings.js';

/** A what-if before it is measured. */
export interface Question {
  readonly id: string;
  readonly group: WhatIfGroup;
  readonly title: string;
  readonly short: string;
  readonly settings: readonly Setting[];
  readonly note?: string;
  readonly handsOn?: boolean;
  /** A remedy for one fault rather than a rule: excluded from combinations. */
  readonly apart?: boolean;
}
