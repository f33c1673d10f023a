import { itemAt } from '../../../model/index.js';

/** A section of the report for its contents list. */
export interface SectionHead {
  readonly id: string;
  readonly number: string;
  readonly title: string;
}

/** Anchor and title. */
export type SectionName = readonly [id: string, title: string];

/** What everyone reads, in order: what to do, what to stack, the results, then why. */
export const SECTIONS: readonly SectionName[] = [
  ['tonight', 'Tonight'],
  ['harmed', 'Frames to look at'],
  ['integration', 'Integration'],
  ['stars', 'Stars'],
  ['guiding', 'Guiding'],
  ['pair', 'Pointing of the pair'],
  ['ledger', 'Ledger'],
  ['findings', 'Findings'],
  ['replay', 'Replay'],
  ['sky', 'Sky'],
];

/** Reference sections: folded on screen. */
export const APPENDIX: readonly SectionName[] = [
  ['strips', 'Two-hour strips'],
  ['dithers', 'Every dither'],
  ['effective', 'Effective integration'],
  ['calibration', 'Calibration coverage'],
  ['notes', 'Notes on the data'],
  ['rules', 'Rules and formulas'],
  ['provenance', 'Provenance'],
  ['frames', 'Every frame'],
  ['glossary', 'Glossary'],
];

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** Sections numbered from 1, the appendix lettered from A. */
export function numbered(
  sections: readonly SectionName[],
  appendix: readonly SectionName[],
): { readonly contents: readonly SectionHead[]; readonly appendix: readonly SectionHead[] } {
  return {
    contents: sections.map(([id, title], index) => ({ id, title, number: String(index + 1) })),
    appendix: appendix.map(([id, title], index) => ({ id, title, number: itemAt(LETTERS, index) })),
  };
}
