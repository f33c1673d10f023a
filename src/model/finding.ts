/** A ranked statement about the night: what it cost, the evidence, what to change and what that would win. */
export interface Finding {
  readonly id: string;
  readonly title: string;
  /** What it cost, ms of one train's dark time. */
  readonly costMs: number;
  /** What it cost, or would win, where that is no time: `0.8 px on a sub`, `9 % of the field`. */
  readonly price?: string;
  readonly frames?: number;
  /** To be put right before anything that is counted in minutes. */
  readonly isFirst?: true;
  readonly evidence: readonly string[];
  readonly advice: string;
  /** What following the advice would win, ms; absent when not known. */
  readonly winMs?: number;
  /** Sub lengths that the advice needs new darks for: `300 s on wren`. */
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

/** What every finding said of a night. */
export interface NightFindings {
  /**
   * What most can be recovered from first, then what nobody can tell the win of, then what nothing can be done about.
   */
  readonly ranked: readonly Finding[];
  readonly notAssessed: readonly NotAssessed[];
}
