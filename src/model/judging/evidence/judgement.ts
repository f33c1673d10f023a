import type { EvidenceKind } from '../../../vocabulary/index.js';

/** The verdict of a cause on an exposure: harm, evidence of no harm, or neither. */
export type Judgement = 'doubtful' | 'lost' | { readonly clearedBy: EvidenceKind } | null;
