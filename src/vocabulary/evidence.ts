/** The possible evidence of a verdict, strongest first. */
export const EVIDENCE_KINDS = ['pixels', 'displacement', 'duration', 'guiding', 'sky', 'header'] as const;
export type EvidenceKind = (typeof EVIDENCE_KINDS)[number];
