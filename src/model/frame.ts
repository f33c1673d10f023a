import type { Interval } from './interval.js';
import type { Source } from './source.js';

/** What an exposure is for, by header (`IMAGETYP` and its many spellings). */
export type FrameKind = 'light' | 'dark' | 'flat' | 'bias' | 'dark-flat' | 'other';

/** What a star size in a header measures: full width at half maximum, or the radius that holds half the flux. */
export type StarMeasure = 'fwhm' | 'half-flux';

/** Median star size as the header has it, pixels, and what it measures. */
export interface StarSize {
  readonly pixels: number;
  /** `unknown` in records written before the two were told apart. */
  readonly measure: StarMeasure | 'unknown';
}

/** A place on the sky: J2000 / ICRS right ascension and declination, degrees. */
export interface FieldPlace {
  readonly raDeg: number;
  readonly decDeg: number;
}

/** A place on the ground: degrees, east positive, and metres where they are stated. */
export interface HeaderSite {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly elevationM?: number;
}

/** What a header says of camera, optics and clock, whatever the frame is for. Absent: the header does not say. */
interface CommonFacts {
  /** Exposure time in seconds as the header states it (`EXPTIME`/`EXPOSURE`). */
  readonly exposureSeconds?: number;
  /** What it states instead where that is longer than any exposure: thousandths of seconds, or a sum. */
  readonly unlikelySeconds?: number;
  /** True where the header states that its clock is right to a second, or that a receiver or time server keeps it. */
  readonly isClockVouched?: boolean;
  /** How far the header's own local time is ahead of UTC, minutes, where it states both. */
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
  /** Median background level in ADU, where the header carries one. */
  readonly backgroundAdu?: number;
  /** Conversion in electrons per ADU. */
  readonly electronsPerAdu?: number;
  readonly readNoiseElectrons?: number;
  /** Level of a pixel without light, ADU, where the header states one. */
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

/** What only the sky tells: on nothing but a light do they mean anything. */
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

/** What a light's header says besides its date. */
export interface LightFacts extends CommonFacts, SkyFacts {
  readonly kind: 'light';
  readonly filter?: string;
}

/** A flat has its filter's dust and shading, and no sky. */
interface FlatFacts extends CommonFacts, None<SkyFacts> {
  readonly kind: 'flat';
  readonly filter?: string;
}

/** No light falls on these; of what is no exposure of ours, nothing of it is used. */
interface UnlitFacts extends CommonFacts, None<SkyFacts> {
  readonly kind: Exclude<FrameKind, 'light' | 'flat'>;
  readonly filter?: undefined;
}

/** What a header says besides its date, by the kind of its frame. */
type UndatedFacts = LightFacts | FlatFacts | UnlitFacts;

/** A header with a usable date: its frame has a place in the night. */
interface Dated {
  /** Shutter span in UTC; empty, at the start, where the header does not state a length. */
  readonly exposure: Interval;
}

/**
 * What one FITS header says, in plain units. Its kind and its date decide what a frame can be used for: what asks for
 * `kind` and `exposure` first has all that a light, or a place on the timeline, needs, without a default.
 */
export type HeaderFacts = UndatedFacts & (Dated | None<Dated>);

/** What is known of the file itself. */
interface FileFacts {
  /** Path relative to the session folder. */
  readonly file: string;
  readonly sizeBytes: number;
  /** The file ends before the last of the pixels that its header describes. */
  readonly isCutOff?: boolean;
  /** SHA-256 (hex) over the header's cards: the frame's identity when files are moved or renamed. */
  readonly headerHash: string;
  /** Raw values of the keywords the rig file tells trains apart by. */
  readonly cards?: Readonly<Record<string, string | number | boolean>>;
}

/** One file whose header was read. */
export type HeaderFrame = HeaderFacts & FileFacts;

/** One file whose header says when its shutter was open. */
export type DatedHeader = UndatedFacts & Dated & FileFacts;

/** One light whose header says when its shutter was open. */
export type DatedLight = LightFacts & Dated & FileFacts;

/** Whether a header has a usable date. */
export function isDated<H extends HeaderFrame>(header: H): header is H & DatedHeader {
  return header.exposure !== undefined;
}

/** A light with a usable date: what a timeline is made of. */
export function isDatedLight<H extends HeaderFrame>(header: H): header is H & DatedLight {
  return header.kind === 'light' && isDated(header);
}

/** How sure a frame's existence is: seen in log and on disk, or on one side only. */
export type FrameProvenance = 'log-and-file' | 'file-only' | 'log-only';

/** One exposure of one train, as reconstructed from header and log. */
export interface Frame {
  /** Unique within the night; stable across runs on the same input. */
  readonly id: string;
  readonly train: string;
  readonly kind: FrameKind;
  readonly exposure: Interval;
  /** Exposure asked for, in milliseconds, where log or header say it. */
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
  readonly sources: readonly Source[];
}
