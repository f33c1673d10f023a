import { SUNSET_ALTITUDE_DEG, type DarknessKind, type WindowKind } from '../vocabulary/index.js';
import type { Interval } from './interval.js';
import type { Warning } from './warning.js';

/** The window whose seconds the ledger accounts for. */
export interface DarkWindow {
  readonly span: Interval;
  /** What bounds it. `sun-minimum`: the chosen darkness never comes; see `note`. */
  readonly kind: WindowKind;
  /** As requested in the rig file. */
  readonly asked: DarknessKind;
  /** The Sun's lowest altitude in the night, degrees, and when. */
  readonly sunMinimumDeg: number;
  readonly sunMinimumMs: number;
  /** A sentence when the requested darkness does not come (high latitudes in summer), or lasts all day. */
  readonly note?: string;
}

/**
 * Sun and Moon of one night at the site. Instants in UTC ms, `null` when the event does not happen between noon and
 * noon.
 */
export interface SkyNight {
  readonly sunsetMs: number | null;
  readonly sunriseMs: number | null;
  /** Evening and morning passages of the Sun's centre through each twilight. */
  readonly twilight: Readonly<Record<DarknessKind, { readonly duskMs: number | null; readonly dawnMs: number | null }>>;
  readonly window: DarkWindow;
  readonly moon: {
    /** Illuminated fraction 0…1 in the middle of the window. */
    readonly illumination: number;
    /** Waxing before full, waning after. */
    readonly waxing: boolean;
    readonly riseMs: number | null;
    readonly setMs: number | null;
  };
}

/** Positions of target, Moon and Sun at one instant. Degrees. */
export interface SkyPosition {
  readonly atMs: number;
  /** Apparent (refracted) altitude and azimuth from north through east. */
  readonly altitudeDeg: number;
  readonly azimuthDeg: number;
  readonly airmass: number | null;
  /** Topocentric Moon: apparent altitude, and angle to the target. */
  readonly moonAltitudeDeg: number;
  readonly moonSeparationDeg: number;
  readonly moonIllumination: number;
  /** Phase angle Sun–Moon–observer, degrees: 0 at full Moon. */
  readonly moonPhaseAngleDeg: number;
  readonly sunAltitudeDeg: number;
  /** The limit at that azimuth: the horizon's altitude or the site's minimum, whichever is higher. */
  readonly limitDeg: number;
}

/** A target's path over the night, sampled evenly. */
export interface TargetCurve {
  readonly target: string;
  readonly points: readonly SkyPosition[];
  /** Spans within the window in which the target is above its limit. */
  readonly up: readonly Interval[];
}

/** The sky over the night and over every light. */
export interface NightSky {
  /** Darkness at the site; if the site is unknown, the span of the activity. */
  readonly window: Interval;
  /** Sun and Moon; `null` when the site is unknown. */
  readonly almanac: SkyNight | null;
  /** At mid-exposure, by frame id; absent if the target's position or the site is unknown. */
  readonly positions: Readonly<Record<string, SkyPosition>>;
  readonly curves: readonly TargetCurve[];
  readonly warnings: readonly Warning[];
}

/** Warnings for lights in daylight: their clock, their zone or the site is wrong. */
const IN_DAYLIGHT: readonly string[] = ['local-time-suspected', 'lights-in-daylight'];

/** Whether the sky contradicts the times of some train: conclusions from when it imaged are then invalid. */
export function contradictsTimes({ warnings }: Pick<NightSky, 'warnings'>): boolean {
  return warnings.some(({ code }) => IN_DAYLIGHT.includes(code));
}

/** Whether the Sun was up: no light can be taken then. */
export function isDaylight({ sunAltitudeDeg }: Pick<SkyPosition, 'sunAltitudeDeg'>): boolean {
  return sunAltitudeDeg > SUNSET_ALTITUDE_DEG;
}
