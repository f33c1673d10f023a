import type { Interval } from './interval.js';
import type { Source } from './source.js';

/** The purpose of an exposure, from the header (`IMAGETYP` and its many spellings). */
export type FrameKind = 'light' | 'dark' | 'flat' | 'bias' | 'dark-flat' | 'other';

/** What a star size in a header measures: full width at half maximum, or the radius that contains half the flux. */
export type StarMeasure = 'fwhm' | 'half-flux';

/** Median star size in the header, pixels, and what it measures. */
export interface StarSize {
  readonly pixels: number;
  /** `unknown` in records written before the two were distinguished. */
  readonly measure: StarMeasure | 'unknown';
}

/** A position on the sky: J2000 / ICRS right ascension and declination, degrees. */
export interface FieldPlace {
  readonly raDeg: number;
  readonly decDeg: number;
}

/** A location on the ground: degrees, east positive, and metres if stated. */
export interface HeaderSite {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly elevationM?: number;
}

/** Camera, optics and clock facts of a header, whatever the frame is for. Absent: not in the header. */
interface CommonFacts {
  /** Exposure time in seconds as stated in the header (`EXPTIME`/`EXPOSURE`). */
  readonly exposureSeconds?: number;
  /** The stated value if it is longer than any exposure: thousandths of seconds, or a sum. */
  readonly unlikelySeconds?: number;
  /** True if the header states that its clock is right to a second, or synchronised with a receiver or time server. */
  readonly isClockVouched?: boolean;
  /** How far the header's own local time is ahead of UTC, minutes, if it states both. */
  readonly localOffsetMinutes?: number;
  readonly telescope?: string;
  readonly instrument?: string;
  readonly gain?: number;
  readonly offset?: number;
  readonly binning?: { readonly x: number; readonly y: number };
  readonly sensorTemperatureC?: number;
  readonly setTemperatureC?: number;
  /** Focuser position in steps and its temperature in °C. */
  readonly focusPosition?: number;
  readonly focusTemperatureC?: number;
  /** Median background level in ADU, if the header has it. */
  readonly backgroundAdu?: number;
  /** Conversion in electrons per ADU. */
  readonly electronsPerAdu?: number;
  readonly readNoiseElectrons?: number;
  /** Level of a pixel without light, ADU, if the header states it. */
  readonly pedestalAdu?: number;
  /** Level at which the sensor saturates, ADU. */
  readonly saturationAdu?: number;
  /** Colours of the first pixels of a colour sensor, row by row: `RGGB`. */
  readonly bayerPattern?: string;
  readonly focalLengthMm?: number;
  readonly apertureMm?: number;
  /** Unbinned pixel size, µm. */
  readonly pixelSizeUm?: number;
  /** Image size in pixels as stored. */
  readonly width?: number;
  readonly height?: number;
  readonly site?: HeaderSite;
  readonly pierSide?: string;
  readonly rotationDeg?: number;
  readonly software?: string;
}

/** Only meaningful for sky exposures, that is lights. */
interface SkyFacts {
  readonly target?: string;
  /** The field's place. */
  readonly pointing?: FieldPlace;
  readonly starSize?: StarSize;
  readonly starCount?: number;
  /** Flux of the same stars in every frame of a field, ADU over the whole exposure. */
  readonly starFluxAdu?: number;
}

type None<T> = { readonly [K in keyof T]?: undefined };

/** A light's header facts besides its date. */
export interface LightFacts extends CommonFacts, SkyFacts {
  readonly kind: 'light';
  readonly filter?: string;
}

/** A flat has its filter's dust and shading, and no sky. */
interface FlatFacts extends CommonFacts, None<SkyFacts> {
  readonly kind: 'flat';
  readonly filter?: string;
}

/** Exposures without light; of other images nothing is used. */
interface UnlitFacts extends CommonFacts, None<SkyFacts> {
  readonly kind: Exclude<FrameKind, 'light' | 'flat'>;
  readonly filter?: undefined;
}

/** A header's facts besides its date, by the kind of its frame. */
type UndatedFacts = LightFacts | FlatFacts | UnlitFacts;

/** A header with a usable date: its frame has a position in the night. */
interface Dated {
  /** Shutter span in UTC; empty, at the start, if the header does not state a length. */
  readonly exposure: Interval;
}

/**
 * One FITS header in plain units. Its kind and date determine what the frame can be used for: checking `kind` and
 * `exposure` first guarantees everything that a light, or a position on the timeline, needs, without defaults.
 */
export type HeaderFacts = UndatedFacts & (Dated | None<Dated>);

/** What is known about the file itself. */
interface FileFacts {
  /** Path relative to the session folder. */
  readonly file: string;
  readonly sizeBytes: number;
  /** The file is truncated before the last pixel that its header describes. */
  readonly isCutOff?: boolean;
  /** SHA-256 (hex) over the header's cards: the frame's identity when files are moved or renamed. */
  readonly headerHash: string;
  /** Raw values of the keywords by which the rig file distinguishes trains. */
  readonly cards?: Readonly<Record<string, string | number | boolean>>;
}

/** One file with its header read. */
export type HeaderFrame = HeaderFacts & FileFacts;

/** One file whose header states when its shutter was open. */
export type DatedHeader = UndatedFacts & Dated & FileFacts;

/** One light whose header states when its shutter was open. */
export type DatedLight = LightFacts & Dated & FileFacts;

/** Whether a header has a usable date. */
export function isDated<H extends HeaderFrame>(header: H): header is H & DatedHeader {
  return header.exposure !== undefined;
}

/** A light with a usable date: the input of a timeline. */
export function isDatedLight<H extends HeaderFrame>(header: H): header is H & DatedLight {
  return header.kind === 'light' && isDated(header);
}

/** How certain a frame's existence is: found in log and on disk, or in one of them only. */
export type FrameProvenance = 'log-and-file' | 'file-only' | 'log-only';

/** One exposure of one train, reconstructed from header and log. */
export interface Frame {
  /** Unique within the night; stable across runs on the same input. */
  readonly id: string;
  readonly train: string;
  readonly kind: FrameKind;
  readonly exposure: Interval;
  /** Requested exposure, in milliseconds, if log or header states it. */
  readonly askedMs?: number;
  readonly target?: string;
  readonly filter?: string;
  readonly provenance: FrameProvenance;
  /** Set when the file exists; relative path. */
  readonly file?: string;
  readonly header?: HeaderFrame;
  /** When the file was written, from the log (`frame-saved`). */
  readonly savedMs?: number;
  /** The log says that the exposure was aborted. */
  readonly aborted?: boolean;
  /** Free text from the log: why it was aborted. */
  readonly abortWhy?: string;
  readonly sources: readonly Source[];
}
