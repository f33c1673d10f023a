/** What a simulated night comes to: its events, frames and samples, and the truth about them. */
export interface SimulatedEvent {
  readonly atMs: number;
  readonly train: string;
  readonly event: string;
  readonly [field: string]: string | number | boolean;
}

export interface Harm {
  readonly kind: 'mount-motion' | 'guiding-off' | 'cut-short';
  readonly fromMs: number;
  readonly toMs: number;
  readonly causedBy?: string;
}

export interface SimulatedFrame {
  readonly train: string;
  readonly target: string;
  readonly filter: string;
  readonly beginMs: number;
  /** Where the shutter really closed. */
  endMs: number;
  readonly askedMs: number;
  readonly aborted: boolean;
  readonly focusPosition: number;
  readonly temperatureC: number;
  readonly starSize: number;
  readonly number: number;
  readonly pierSide: 'east' | 'west';
}

export interface SimulatedCycle {
  readonly beginMs: number;
  readonly readyMs: Readonly<Record<string, number>>;
  readonly holder: string | null;
  readonly moveMs: number;
  readonly settleMs: number;
}

export interface GuidingSample {
  readonly atMs: number;
  readonly ra: number;
  readonly dec: number;
}

export interface Simulation {
  readonly events: readonly SimulatedEvent[];
  readonly frames: readonly SimulatedFrame[];
  readonly cycles: readonly SimulatedCycle[];
  readonly samples: readonly GuidingSample[];
  /** Milliseconds per train and account; `unexplained` is what the window leaves over. */
  readonly booked: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** Dithers during open shutters, to the end of their settling. */
  readonly strays: readonly { readonly fromMs: number; readonly toMs: number; readonly pixels: number }[];
  /** Stretches without guiding, with who caused them. */
  readonly guidingOff: readonly GuidingOff[];
}

export interface GuidingOff {
  readonly fromMs: number;
  readonly toMs: number;
  readonly causedBy?: string;
  /** The field leaves its place by this much until the end, or comes back from there. Arcseconds. */
  readonly leaves?: number;
  readonly returns?: number;
}

/** The invented capture program's file names. */
export function frameName(frame: SimulatedFrame): string {
  return `${frame.train}_${frame.target.replace(/\s+/g, '')}_${frame.filter}_${String(frame.number).padStart(4, '0')}.fits`;
}
