import type { EvidenceKind } from '../../../vocabulary/index.js';

/** What a cause makes of an exposure: harm, or evidence that there was none, or nothing at all. */
export type Judgement = 'doubtful' | 'lost' | { readonly clearedBy: EvidenceKind } | null;
