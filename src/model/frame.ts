import type { Interval } from './interval.js';
import type { Source } from './source.js';

/** What an exposure is for, by header (`IMAGETYP` and its many spellings). */
export type FrameKind = 'light' | 'dark' | 'flat' | 'bias' | 'dark-flat' | 'other';

/** What a star size in a header measures: full width at half maximum, or the radius that holds half the flux. */
export type StarMeasure = 'fwhm' | 'half-flux';

/** What one FITS header says besides its date, in plain units. Absent: the header does not say. */
interface UndatedFacts {
  readonly kind: FrameKind;
  /** Exposure time in seconds as the header states it (`EXPTIME`/`EXPOSURE`). */
  readonly exposureSeconds?: number;
  /** True where the header states that its clock is right to a second, or that a receiver or time server keeps it. */
  readonly isClockVouched?: boolean;
  /** How far the header's own local time is ahead of UTC, minutes, where it states both. */
  readonly localOffsetMinutes?: number;
  readonly target?: string;
  readonly filter?: string;
  readonly telescope?: string;
  readonly instrument?: string;
  /** J2000 / ICRS right ascension and declination of the field, degrees. */
  readonly raDeg?: number;
  readonly decDeg?: number;
  readonly gain?: number;
  readonly offset?: number;
  readonly binning?: { readonly x: number; readonly y: number };
  readonly sensorTemperatureC?: number;
  readonly setTemperatureC?: number;
  /** Focuser position in steps and its temperature in °C. */
  readonly focusPosition?: number;
  readonly focusTemperatureC?: number;
  /** Median star size as the header has it, pixels; what it measures stands beside it. */
  readonly starSize?: number;
  /** Which of the two the size is. Absent in records written before they were told apart. */
  readonly starMeasure?: StarMeasure;
  readonly starCount?: number;
  /** Flux of the same stars in every frame of a field, ADU over the whole exposure. */
  readonly starFluxAdu?: number;
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
  /** Site from the header: degrees (east positive) and metres. */
  readonly siteLatitudeDeg?: number;
  readonly siteLongitudeDeg?: number;
  readonly siteElevationM?: number;
  readonly pierSide?: string;
  readonly rotationDeg?: number;
  readonly software?: string;
}

/** A header with a usable date: its frame has a place in the night. */
export interface DatedFacts extends UndatedFacts {
  /** Shutter span in UTC; empty, at the start, where the header does not state a length. */
  readonly exposure: Interval;
}

/**
 * What one FITS header says. The date decides what a frame can be used for, and so which of the two it is: what asks
 * for `exposure` first has all that a place on the timeline needs, without a default.
 */
export type HeaderFacts = DatedFacts | (UndatedFacts & { readonly exposure?: undefined });

/** What is known of the file itself. */
interface FileFacts {
  /** Path relative to the session folder. */
  readonly file: string;
  readonly sizeBytes: number;
  /** SHA-256 (hex) over the header's cards: the frame's identity when files are moved or renamed. */
  readonly headerHash: string;
  /** Raw values of the keywords the rig file tells trains apart by. */
  readonly cards?: Readonly<Record<string, string | number | boolean>>;
}

/** One file whose header was read. */
export type HeaderFrame = HeaderFacts & FileFacts;

/** One file whose header says when its shutter was open. */
export type DatedHeader = DatedFacts & FileFacts;

/** Whether a header has a usable date. */
export function isDated<H extends HeaderFrame>(header: H): header is H & DatedHeader {
  return header.exposure !== undefined;
}

/** A light with a usable date: what a timeline is made of. */
export function isDatedLight<H extends HeaderFrame>(header: H): header is H & DatedHeader {
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
