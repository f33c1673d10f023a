import type { GuidingSeries, LineTimes, LogEvent, Warning } from '../../model/index.js';

/** How a text file is written. */
export interface TextForm {
  /** A `TextDecoder` label. */
  readonly encoding: string;
  readonly lineEnding: 'LF' | 'CRLF' | 'CR';
  /** Nesting depth of the lists of a JSON document whose objects were read as lines, if so. */
  readonly objects?: number;
}

/** How much of a log was read, and its identity. */
export interface LogFile {
  /** Lines that hold anything; blank ones do not count. */
  readonly lines: number;
  /** SHA-256 (hex) of the bytes on disk up to the size at opening; empty when the file could not be opened. */
  readonly sha256: string;
  /** Size on disk when the file was opened. */
  readonly sizeBytes: number;
}

/** One log turned into events, in the order of its lines. */
export interface LogRead extends LogFile {
  readonly events: readonly LogEvent[];
  /** When its lines were written; absent where the events are all of them. */
  readonly times?: readonly LineTimes[];
  /** Guiding samples, when the log carries any. */
  readonly guiding?: GuidingSeries;
  /** In the order of the lines they are about; repeats of one kind are merged after the first few. */
  readonly warnings: readonly Warning[];
  /** Lines that gave something or are to be ignored. */
  readonly understood: number;
}
