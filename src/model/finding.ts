/** A ranked statement about the night: its cost, the evidence, what to change and the gain. */
export interface Finding {
  readonly id: string;
  readonly title: string;
  /** Its cost, ms of one train's dark time. */
  readonly costMs: number;
  /** Its cost or gain, if not a time: `0.8 px on a sub`, `9 % of the field`. */
  readonly price?: string;
  readonly frames?: number;
  /** To be fixed before anything that is counted in minutes. */
  readonly isFirst?: true;
  readonly evidence: readonly string[];
  readonly advice: string;
  /** The gain of following the advice, ms; absent when unknown. */
  readonly winMs?: number;
  /** Sub lengths for which the advice needs new darks: `300 s on wren`. */
  readonly newDarks?: readonly string[];
  readonly confidence: 'high' | 'medium' | 'low';
  /** Anchors in the report: `frame-…`, `dither-…`, section ids. */
  readonly links?: readonly { readonly text: string; readonly anchor: string }[];
  readonly caution?: string;
}

/** A finding that could not be assessed, and what was missing. */
export interface NotAssessed {
  readonly id: string;
  readonly title: string;
  readonly missing: string;
}

/** The results of all findings for a night. */
export interface NightFindings {
  /** By recoverable time, then those with unknown gain, then unavoidable ones. */
  readonly ranked: readonly Finding[];
  readonly notAssessed: readonly NotAssessed[];
}
