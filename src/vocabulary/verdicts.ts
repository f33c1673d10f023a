import { keysOf } from './table.js';

/** What becomes of a light: its word, and the mark beside it in narrow places. */
export const VERDICTS = {
  kept: { label: 'kept', mark: '' },
  doubtful: { label: 'doubtful', mark: '?' },
  lost: { label: 'lost', mark: '×' },
} as const satisfies Readonly<Record<string, { readonly label: string; readonly mark: string }>>;

export type Verdict = keyof typeof VERDICTS;
export const VERDICT_KINDS = keysOf(VERDICTS);
