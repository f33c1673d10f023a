import type { EventName } from '../../../../model/index.js';
import type { Candidate } from '../classify/classify.js';
import { lengthMs } from '../lengths.js';
import { spanningOf, type Spanning } from '../kinds/begin-stamped.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { rangedTo, timeOf, type Part, type Ranged } from '../kinds/parts.js';
import { plainWords } from '../lexicon/plain-words.js';
import { saysSaved } from '../lexicon/said.js';
import { isFrameFile } from '../kinds/values.js';

/** The columns of a table leave no doubt about its rows. */
const KNOWN = 12;
/** A third time is a repeated end if it is within this distance of one, ms, in this fraction of rows. */
const SAME_MS = 1600;
const NEARLY_ALL = 0.9;
/** The file is written within this time after the exposure, ms. */
const WRITTEN_MS = 120_000;

/** The meaning of the rows of an exposure table. */
export interface ExposureSpans {
  /** Rows with both ends. */
  readonly ranges: ReadonlyMap<Kind, Ranged>;
  /** Rows stamped at the begin that state the length. */
  readonly spans: ReadonlyMap<Kind, Spanning>;
  /** Rows stamped at the end that state the length. */
  readonly lasted: ReadonlyMap<Kind, Slot>;
}

/** The spans of kinds whose rows are exposures. */
export function exposureSpans(kinds: readonly Kind[]): ExposureSpans {
  const ranges = new Map<Kind, Ranged>();
  const spans = new Map<Kind, Spanning>();
  const lasted = new Map<Kind, Slot>();
  for (const kind of kinds) {
    if (kind.exposure === undefined) continue;
    const { side, length, other } = kind.exposure;
    const range = other === null ? null : rangedTo(kind, other, timesOf(kind, other));
    if (range !== null) ranges.set(kind, range);
    else if (length !== null && side === 'begin') spans.set(kind, { ...spanningOf(kind, length), isExposure: true });
    else if (length !== null) lasted.set(kind, length);
  }
  return { ranges, spans, lasted };
}

function timesOf(kind: Kind, slot: Slot): number[] {
  return kind.atMs.map((atMs, i) => timeOf(slot, i, atMs));
}

/** The span that ends in the rows of an exposure; `undefined` for other kinds. */
export function exposureEvent({ exposure }: Kind): EventName | undefined {
  return exposure === undefined ? undefined : exposure.isCut ? 'exposure-abort' : 'exposure-end';
}

/** The rows of exposures as a candidate with its only possible event. */
export function exposureCandidate(kind: Kind, { ranges, spans, lasted }: ExposureSpans, event: EventName): Candidate {
  const ends = ranges.get(kind) ?? spans.get(kind);
  const slot = lasted.get(kind);
  const tookMs = ends?.tookMs ?? (slot === undefined ? undefined : kind.atMs.map((_, i) => lengthMs(slot, i)));
  return {
    kind: ends?.kind ?? kind,
    only: [event],
    extra: new Map([[event, KNOWN]]),
    ...(tookMs === undefined ? {} : { tookMs }),
  };
}

/** Whether an additional time of an exposure's row repeats one of its ends. */
export function isEnd({ whole, kind, slot }: Part, spans: ExposureSpans): boolean {
  if (whole.exposure === undefined || saysSaved(plainWords(slot.path ?? ''))) return false;
  const ends = endsOf(whole, spans);
  const near = kind.atMs.filter((atMs, i) => ends.some((one) => Math.abs(atMs - (one[i] ?? NaN)) <= SAME_MS));
  const known = kind.atMs.filter((atMs) => !Number.isNaN(atMs));
  return near.length >= NEARLY_ALL * known.length && known.length >= NEARLY_ALL * kind.atMs.length;
}

/**
 * Whether an additional time of exposure rows is when their files were written: soon after each end with a file; of
 * several such times the one named accordingly, otherwise the first.
 */
export function isWritten(part: Part, spans: ExposureSpans, parts: readonly Part[]): boolean {
  if (!isBehind(part, spans)) return false;
  const all = parts.filter((one) => one.whole === part.whole && isBehind(one, spans));
  const named = all.filter(({ slot }) => saysSaved(plainWords(slot.path ?? '')));
  const rivals = named.length > 0 ? named : all;
  const first = (one: Part): number => one.kind.atMs.find((atMs) => !Number.isNaN(atMs)) ?? NaN;
  return rivals.includes(part) && rivals.every((one) => !(first(one) < first(part)));
}

/** Whether an additional time of exposure rows follows soon after each end with a file. */
function isBehind({ whole, kind }: Part, spans: ExposureSpans): boolean {
  if (whole.exposure === undefined) return false;
  const [, ends = []] = endsOf(whole, spans);
  const named = whole.atMs.map((_, i) => whole.slots.some(({ perLine }) => isFrameFile(perLine[i] ?? '')));
  const written = kind.atMs.filter(
    (atMs, i) => named[i] === true && atMs >= (ends[i] ?? NaN) && atMs - (ends[i] ?? NaN) <= WRITTEN_MS,
  );
  return written.length > 0 && written.length >= NEARLY_ALL * named.filter(Boolean).length;
}

/** The begins and ends of a kind's exposures, ms. */
function endsOf(kind: Kind, { ranges, spans, lasted }: ExposureSpans): readonly (readonly number[])[] {
  const ends = ranges.get(kind) ?? spans.get(kind);
  const slot = lasted.get(kind);
  const ended = ends?.kind.atMs ?? kind.atMs;
  const begun = ended.map((atMs, i) => atMs - (ends?.tookMs[i] ?? (slot === undefined ? NaN : lengthMs(slot, i))));
  return [begun, ended];
}
