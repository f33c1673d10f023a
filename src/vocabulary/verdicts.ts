import { keysOf } from './table.js';

/** The verdict on a light: its word, and its mark for narrow spaces. */
export const VERDICTS = {
  kept: { label: 'kept', mark: '' },
  doubtful: { label: 'doubtful', mark: '?' },
  lost: { label: 'lost', mark: '×' },
} as const satisfies Readonly<Record<string, { readonly label: string; readonly mark: string }>>;

export type Verdict = keyof typeof VERDICTS;
export const VERDICT_KINDS = keysOf(VERDICTS);
