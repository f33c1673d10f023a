/** Invented lights under a sky set by hand, for tests of what they are worth. */
import {
  filterWavelengthNm,
  interval,
  totalKey,
  type CameraFacts,
  type Frame,
  type FrameWorth,
  type LightFacts,
  type JudgedFrame,
  type SkyPosition,
  type TargetCurve,
  type Total,
  type TotalWorth,
  type Train,
  type WorthAssessment,
} from '../../src/model/index.js';
import { extinctionCoefficient, moonBrightening, twilightNanoLamberts } from '../../src/sky/index.js';
import { airmass } from '../../src/sky/airmass.js';
import { assessWorth, type SkyModel } from '../../src/worth/index.js';
import { CIERZO_HILL, namedNight } from '../support/nights.js';

/** The sky stage's own functions, as the pipeline hands them in. */
export const SKY: SkyModel = {
  wavelengthNm: filterWavelengthNm,
  extinction: extinctionCoefficient,
  brightening: moonBrightening,
  twilight: twilightNanoLamberts,
};

export const NIGHT_MS = Date.UTC(2026, 9, 25, 20);

/** A target at an altitude, with the Moon down unless given. */
export function skyAt(
  altitudeDeg: number,
  moon: Partial<
    Pick<SkyPosition, 'moonAltitudeDeg' | 'moonSeparationDeg' | 'moonPhaseAngleDeg' | 'sunAltitudeDeg'>
  > = {},
): SkyPosition {
  return {
    atMs: NIGHT_MS,
    altitudeDeg,
    azimuthDeg: 180,
    airmass: airmass(altitudeDeg),
    moonAltitudeDeg: -20,
    moonSeparationDeg: 60,
    moonIllumination: 0.9,
    moonPhaseAngleDeg: 30,
    sunAltitudeDeg: -40,
    limitDeg: 25,
    ...moon,
  };
}

export const UNDER_MOON = { moonAltitudeDeg: 50, moonSeparationDeg: 60, moonPhaseAngleDeg: 15 } as const;

export interface LightPlan {
  readonly filter?: string;
  readonly train?: string;
  readonly seconds?: number;
  readonly startMs?: number;
  readonly verdict?: JudgedFrame['verdict'];
  readonly header?: Partial<LightFacts>;
  readonly sky?: SkyPosition | null;
}

let made = 0;

/** A kept light of NGC 281 through Ha, 300 s, at the zenith of a dark sky, unless given. */
export function light(facts: LightPlan = {}): JudgedFrame {
  const { filter = 'Ha', train = 'heron', seconds = 300, verdict = 'kept', sky = skyAt(90) } = facts;
  const startMs = facts.startMs ?? NIGHT_MS + made * 400_000;
  const id = `${train}-${++made}`;
  const exposure = interval(startMs, startMs + Math.round(seconds * 1000));
  const file = `frames/${id}.fits`;
  return {
    id,
    train,
    kind: 'light',
    exposure,
    target: 'NGC 281',
    filter,
    provenance: 'log-and-file',
    file,
    sources: [],
    header: {
      file,
      sizeBytes: 5760,
      headerHash: id,
      kind: 'light',
      exposure,
      exposureSeconds: seconds,
      gain: 100,
      offset: 50,
      setTemperatureC: -10,
      ...facts.header,
    },
    verdict,
    causes: [],
    cleared: [],
    sky,
    guiding: null,
  };
}

/** A train's part of the rig file, with no noise figures unless given. */
export function trainConfig(facts: Partial<CameraFacts> = {}): CameraFacts {
  return {
    id: 'heron',
    filterWidthsNm: {},
    filterWavelengthsNm: {},
    ...facts,
  };
}

/** A train's part of the rig file with all that the full formula needs. */
export const NOISE_CONFIG = trainConfig({
  readNoiseElectrons: 1.5,
  gainElectronsPerAdu: 0.25,
  darkCurrentElectronsPerSecond: 0.001,
  filterWidthsNm: { L: 300, B: 100, Ha: 3, OIII: 3 },
});

/** What the worth of lights rests on, set by hand. */
export interface WeighInput {
  readonly elevationM: number | null;
  readonly darkSkyMagArcsec2?: number;
  readonly referenceSubSeconds?: number;
  readonly trains: readonly Train[];
  readonly cameras: readonly CameraFacts[];
  readonly frames: readonly JudgedFrame[];
  readonly totals: readonly Total[];
  readonly calibration: readonly Frame[];
  readonly curves: readonly TargetCurve[];
}

/** Frames and totals with their worth, and what it rests on. */
export interface Weighed {
  readonly frames: readonly (JudgedFrame & { readonly worth?: FrameWorth })[];
  readonly totals: readonly (Total & { readonly worth?: TotalWorth })[];
  readonly worth: WorthAssessment | null;
}

/** Weighs lights as the pipeline does. */
export function weigh({ elevationM, frames, totals, calibration, curves, ...facts }: WeighInput): Weighed {
  const night = namedNight('no-frames');
  const site = elevationM === null ? null : { ...CIERZO_HILL, elevationM };
  const worth = assessWorth(
    {
      gathered: { ...night.gathered, site, ...facts },
      timeline: { ...night.timeline, frames, library: calibration },
      sky: { ...night.sky, curves },
      stars: null,
      accounts: { ...night.accounts, lights: frames, totals },
    },
    SKY,
  );
  return {
    worth,
    frames: frames.map((frame) => {
      const own = worth?.frames[frame.id];
      return own ? { ...frame, worth: own } : frame;
    }),
    totals: totals.map((total) => {
      const own = worth?.totals[totalKey(total)];
      return own ? { ...total, worth: own } : total;
    }),
  };
}
