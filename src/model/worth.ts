/**
 * The worth of exposures relative to the same exposures under a dark sky at the zenith. Computed by the stage `worth`,
 * which has the formulas; these are its results.
 */

/** The source of a figure: the frames' own headers, or the model of a clear sky. */
export type WorthOrigin = 'measured' | 'modelled';

/**
 * What the noise was computed from: sky, dark current and read noise; or the sky alone, which for frames of one length
 * slightly underestimates the effect of moonlight, because read noise hides part of it.
 */
export type NoiseBasis = 'read-noise' | 'sky-limited';

/** The causes of a range of effective time: each is an uncertainty that the figures cannot resolve. */
export const WORTH_DOUBTS = ['clear-air', 'clear-nights', 'moon-model', 'sky-of-nights'] as const;
export type WorthDoubt = (typeof WORTH_DOUBTS)[number];

/**
 * The worth of one light. Fractions are of its exposure; the reference is one frame for the whole rig, on all nights:
 * of a fixed length, under the moonless sky at the zenith.
 */
export interface FrameWorth {
  /** Extinction of its filter on a clear night, magnitudes per air mass. */
  readonly extinctionPerAirmass: number;
  /** Light of the target that arrived, relative to the zenith through a clear sky. */
  readonly transparency: number;
  /** `modelled`: a clear sky is assumed. */
  readonly transparencyFrom: WorthOrigin;
  /**
   * Magnitudes per square arcsecond by which moonlight brightens the sky at the target; 0 with the Moon down. Modelled.
   */
  readonly moonBrighteningMag: number;
  /** Sky ÷ dark sky at the zenith. */
  readonly skyRatio: number;
  readonly skyFrom: WorthOrigin;
  /** The same sky in magnitudes per square arcsecond. */
  readonly skyMagArcsec2: number;
  /** The same sky in electrons per second and pixel; `null` when aperture, pixel scale or filter width are unknown. */
  readonly skyElectronsPerSecond: number | null;
  readonly noise: NoiseBasis;
  /** Effective ÷ clock time, `g` of the formulas. */
  readonly share: number;
  /** Range of the share given the unknowns: see `doubts`. */
  readonly lowShare: number;
  readonly highShare: number;
  readonly doubts: readonly WorthDoubt[];
  /** The share without the Moon. */
  readonly moonlessShare: number;
  /** Exposure × share, ms. */
  readonly effectiveMs: number;
}

/**
 * The moonless zenith sky that effective time is relative to. From the rig file, or from the model of a sky of
 * `darkSky`, it is the same on all nights; measured levels without one in the rig file are relative to the night's own,
 * so that hours of other nights are not comparable.
 */
export interface ZenithSky {
  /** Electrons per second and pixel; `null` when unknown. */
  readonly electronsPerSecond: number | null;
  readonly from: 'rig-file' | 'model' | 'night';
}

/**
 * The worth of the kept frames of one target, filter and train. Milliseconds; never to be added up over filters or
 * trains.
 */
export interface TotalWorth {
  /** Σ exposure × share: the worth of a stack with the best weights. */
  readonly effectiveMs: number;
  /** The minimum and maximum of the same. Unknowns apply to the whole night, so bounds of frames add up. */
  readonly lowMs: number;
  readonly highMs: number;
  readonly doubts: readonly WorthDoubt[];
  /** Effective time lost to moonlight. */
  readonly moonLossMs: number;
  /** The same in open-shutter time: Σ exposure × (1 − share ÷ moonless share). */
  readonly moonShutterMs: number;
  /** The worth of a plain mean of all kept frames. */
  readonly plainMeanMs: number;
  /** The worth of a plain mean without the marginal frames. */
  readonly bestMeanMs: number;
  /** Ids of kept frames that lower a plain mean, worst first. */
  readonly marginal: readonly string[];
  /** Length of the reference frame, one for the rig. */
  readonly referenceMs: number;
  /** The dark sky at the zenith that it is relative to. */
  readonly zenith: ZenithSky;
  readonly noise: NoiseBasis;
  readonly sky: WorthOrigin | 'mixed';
  readonly transparency: WorthOrigin | 'mixed';
  /** `null` when the read noise or the sky in electrons is unknown. */
  readonly sub: SubLength | null;
}

/** Whether the subs of one target, filter and train had a good length. */
export interface SubLength {
  /** The usual sub, seconds. */
  readonly seconds: number;
  /** Median sky of the kept frames, and dark current: electrons per second and pixel. */
  readonly skyElectronsPerSecond: number;
  readonly darkElectronsPerSecond: number;
  readonly readNoiseElectrons: number;
  /** Noise in excess of the same time in one exposure without read noise, as a fraction: 0.05 is 5 %. */
  readonly extraNoise: number;
  /** Seconds at which the extra noise would be `tolerated`. */
  readonly enoughSeconds: number;
  readonly tolerated: number;
  /** Median pause between two frames of the train, seconds. */
  readonly pauseSeconds: number;
  /** Frames lost to the mount or the guiding. */
  readonly lostFrames: number;
  /** The most valuable length among fractions and multiples of the sub, and its gain. */
  readonly best: { readonly seconds: number; readonly extraNoise: number; readonly winMs: number };
}

/** One filter's part in an order of filters. Milliseconds. */
export interface FilterPlace {
  readonly filter: string;
  readonly exposureMs: number;
  readonly noise: NoiseBasis;
  /** Open-shutter time lost to moonlight, actual and in the best order. */
  readonly lossMs: number;
  readonly bestLossMs: number;
  /** Effective time, actual and in the best order, both by the model. */
  readonly effectiveMs: number;
  readonly bestEffectiveMs: number;
  /** Mean brightening by the Moon over its time, magnitudes. */
  readonly brighteningMag: number;
  readonly bestBrighteningMag: number;
}

/**
 * The actual order of the filters on one target and train, and the sequential order that would have lost least to the
 * Moon.
 */
export interface FilterOrder {
  readonly train: string;
  readonly target: string;
  /** Open-shutter time of one train lost to moonlight, ms. */
  readonly lossMs: number;
  readonly bestLossMs: number;
  /** The filters in the best order; `null` if the actual order is as good. */
  readonly best: readonly string[] | null;
  /** Sorted by name. */
  readonly filters: readonly FilterPlace[];
}

/** Moonlight at a target's position over the night, in V. */
export interface MoonlightCurve {
  readonly target: string;
  /** Only instants at which the target is above the horizon. */
  readonly points: readonly { readonly atMs: number; readonly brighteningMag: number }[];
}

/** What was used from headers, or was rejected and why. */
export interface MeasureNote {
  readonly train: string;
  readonly filter: string;
  readonly measure: 'level' | 'flux' | 'star-count';
  readonly used: boolean;
  readonly frames: number;
  /** A clause without a full stop: how it was used, or why not. */
  readonly how: string;
}

/** What is known about the noise of one train and filter. */
export interface NoiseNote {
  readonly train: string;
  readonly filter: string;
  /** Dark sky at the zenith, electrons per second and pixel. */
  readonly zenithElectronsPerSecond: number | null;
  readonly zenithFrom: WorthOrigin | 'rig-file' | null;
  readonly readNoiseElectrons: number | null;
  readonly darkElectronsPerSecond: number;
  /** What the rig file would have to state for the read noise to be known; empty when it is. */
  readonly missing: readonly string[];
  /** The filter's name is unknown: extinction and sky are those of V. */
  readonly assumedBand: boolean;
}

/** Broadband exposures of one train, and narrowband in their place under the same sky, by the model. */
export interface NarrowInstead {
  readonly train: string;
  /** The broadband filters. */
  readonly filters: readonly string[];
  /** Open-shutter time lost to moonlight. */
  readonly lossMs: number;
  /** The loss through the train's least affected narrow band. */
  readonly instead: { readonly filter: string; readonly lossMs: number };
}

/** The basis of a night's worth, and statements about the night as a whole. */
export interface WorthAssessment {
  /** By frame id; absent if the target's position is unknown, or it was below the horizon. */
  readonly frames: Readonly<Record<string, FrameWorth>>;
  /** By `totalKey`; absent if nothing is kept or the worth of a kept frame is unknown. */
  readonly totals: Readonly<Record<string, TotalWorth>>;
  /** Moonless sky at the zenith, V magnitudes per square arcsecond. */
  readonly darkSkyMagArcsec2: number;
  readonly darkSkyFrom: 'rig-file' | 'default';
  /** The reference frame of effective time: its length, ms, one for all trains, filters and nights. */
  readonly referenceMs: number;
  readonly referenceFrom: 'rig-file' | 'default';
  readonly moonlight: readonly MoonlightCurve[];
  readonly orders: readonly FilterOrder[];
  readonly instead: readonly NarrowInstead[];
  readonly measures: readonly MeasureNote[];
  readonly noises: readonly NoiseNote[];
}
