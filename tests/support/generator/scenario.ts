/**
 * The scenario of a simulated night. All of it is invented.
 */
import type { CardInput } from '../fits-writer.js';
import type { SimulatedFrame, Simulation } from './simulation.js';

export interface PlannedExposures {
  readonly target: string;
  readonly filter: string;
  readonly seconds: number;
  readonly count: number;
}

export interface ScenarioTrain {
  readonly id: string;
  readonly role: 'pilot' | 'companion';
  readonly telescope: string;
  readonly camera: string;
  readonly focalLengthMm: number;
  readonly apertureMm: number;
  /** What it images, in order; repeated from the start when done. */
  readonly plan: readonly PlannedExposures[];
  readonly readoutMs: number;
  /** Minutes after the pilot's first exposure at which this train begins. */
  readonly startOffsetMin: number;
  /** Refocus after these frames (1-based counts of its own frames). */
  readonly refocusAfter: readonly number[];
  /** Waits for the dither when the pilot's block ends within this time, ms. */
  readonly patienceMs: number;
  /** Refocus after each change of the filter. */
  readonly refocusOnFilterChange?: boolean;
  /**
   * How fast its stars grow from the start or a refocus on, px an hour, and how much larger they are until the first
   * one; when absent 0.09 for four hours, and as much as these before it.
   */
  readonly focus?: { readonly growthPerHour: number; readonly unfocusedPx: number };
  /** Its refocus of this number, from 1, leaves its stars so much larger, px, until the next one. */
  readonly worseFocus?: { readonly number: number; readonly px: number };
  /** The sensor is this far above its set point, °C, by its own frame's number; absent: at it. */
  readonly warmerC?: (frame: number) => number;
}

/** Habits that cost time; what is absent is done well. */
export interface ScenarioHabits {
  /** Settling goes on for so much longer than the mount needs. */
  readonly settleExtraSeconds?: number;
  /** The pilot dithers when it is ready, whatever the companions do. */
  readonly dithersUnasked?: boolean;
  /** All trains refocus at the same dither, by the pilot's counts. */
  readonly refocusTogether?: boolean;
  /** From the turn of the flip to its end. */
  readonly flipSeconds?: number;
  /** The mount turns over at a dither, when every shutter is closed anyway. */
  readonly flipsAtDither?: boolean;
  /** Star size that the log states before a refocus; absent: a tenth and more above what it makes of them. */
  readonly sizeBeforeFocus?: number;
}

export interface ScenarioTarget {
  readonly name: string;
  readonly ra: string;
  readonly dec: string;
  readonly raDeg: number;
  readonly decDeg: number;
}

export interface Scenario {
  readonly name: string;
  readonly seed: number;
  /** When the pilot begins to slew, and when no further exposure begins, UTC. */
  readonly begin: string;
  readonly end: string;
  readonly site: {
    readonly name: string;
    readonly latitude: number;
    readonly longitude: number;
    readonly elevation: number;
    readonly timezone: string;
  };
  readonly trains: readonly ScenarioTrain[];
  readonly targets: readonly ScenarioTarget[];
  /** Of each target, as the rig file has them; 12 h of three narrow bands when absent. */
  readonly goals?: string;
  readonly ditherEvery: number;
  readonly habits?: ScenarioHabits;
  /** Times UTC of what befalls the night. */
  readonly starLost: readonly { readonly at: string; readonly seconds: number }[];
  readonly clouds: readonly { readonly from: string; readonly to: string }[];
  readonly flipAt?: string;
  /** When the mount goes to another target, UTC, and what each train images from then on; in order of time. */
  readonly turns?: readonly {
    readonly at: string;
    readonly plans: Readonly<Record<string, readonly PlannedExposures[]>>;
  }[];
  /** Each ends the train's first exposure that begins then or later before its time, UTC. */
  readonly aborts?: readonly { readonly train: string; readonly at: string }[];
  /** Stretches in which the guiding is this rough, UTC. */
  readonly roughSpells?: readonly { readonly from: string; readonly to: string; readonly sigmaArcsec: number }[];
  /** How many times as rough the guiding is on each axis at an instant; absent: once. */
  readonly roughness?: (atMs: number) => { readonly ra: number; readonly dec: number };
  /** Stretches in which a train does nothing and logs nothing, from its first exposure that would begin then, UTC. */
  readonly idles?: readonly { readonly train: string; readonly at: string; readonly minutes: number }[];
  /** Seconds between guiding samples; 0 for none. */
  readonly guidingEverySeconds: number;
  readonly guidingSigmaArcsec: number;
  /** What the rig file says of sky, cameras (one model on every train) and filters; absent: nothing. */
  readonly darkSky?: number;
  readonly camera?: { readonly readNoise: number; readonly gain: number; readonly darkCurrent: number };
  readonly filterWidthsNm?: Readonly<Record<string, number>>;
  /** Dithers that the mount makes while shutters are open, UTC, with their size in guide pixels. */
  readonly strayDithers?: readonly { readonly at: string; readonly pixels: number }[];
  /** Draws what a frame's pixels hold; without it they are tiny and empty. */
  readonly painter?: (simulation: Simulation) => (frame: SimulatedFrame) => PaintedFrame;
  /** Further cards of a light's header. */
  readonly cards?: (frame: SimulatedFrame) => readonly CardInput[];
}

/** A drawn frame, and what was drawn. */
export interface PaintedFrame {
  readonly width: number;
  readonly height: number;
  /** Draws them: it takes its time. */
  readonly pixels: () => Float64Array;
  readonly truth: DrawnTruth;
}

/** What a frame's pixels must be found to say. */
export interface DrawnTruth {
  /** FWHM of the profile, px. */
  readonly fwhm: number;
  /** Length of the path that the stars drew, px. */
  readonly trail: number;
  /** Share of the starlight that came through. */
  readonly flux: number;
  /** Level of the sky, ADU, the pedestal and the nebula aside. */
  readonly sky: number;
}
