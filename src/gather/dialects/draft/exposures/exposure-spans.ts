import type { EventName } from '../../../../model/index.js';
import type { Candidate } from '../classify/classify.js';
import { lengthMs } from '../lengths.js';
import { spanningOf, type Spanning } from '../kinds/begin-stamped.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { rangedTo, timeOf, type Part, type Ranged } from '../kinds/parts.js';
import { plainWords } from '../lexicon/plain-words.js';
import { saysSaved } from '../lexicon/said.js';
import { isFrameFile } from '../kinds/values.js';

/** The columns of a table leave no doubt of what its rows are. */
const KNOWN = 12;
/** A third time is another end where it stands so near to one, ms, in so many rows. */
const SAME_MS = 1600;
const NEARLY_ALL = 0.9;
/** So soon after the exposure its file is written, ms. */
const WRITTEN_MS = 120_000;

/** What the rows of a table of exposures tell. */
export interface ExposureSpans {
  /** Rows with both ends. */
  readonly ranges: ReadonlyMap<Kind, Ranged>;
  /** Rows that stand at the beginning and say how long it was. */
  readonly spans: ReadonlyMap<Kind, Spanning>;
  /** Rows that stand at the end and say how long it was. */
  readonly lasted: ReadonlyMap<Kind, Slot>;
}

/** What kinds tell whose rows are exposures. */
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

/** What ends in the rows of an exposure; `undefined` for other kinds. */
export function exposureEvent({ exposure }: Kind): EventName | undefined {
  return exposure === undefined ? undefined : exposure.isCut ? 'exposure-abort' : 'exposure-end';
}

/** The rows of exposures as a candidate of the one event that they can be. */
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

/** Whether a further time of an exposure's row is one of its ends once more. */
export function isEnd({ whole, kind, slot }: Part, spans: ExposureSpans): boolean {
  if (whole.exposure === undefined || saysSaved(plainWords(slot.path ?? ''))) return false;
  const ends = endsOf(whole, spans);
  const near = kind.atMs.filter((atMs, i) => ends.some((one) => Math.abs(atMs - (one[i] ?? NaN)) <= SAME_MS));
  const known = kind.atMs.filter((atMs) => !Number.isNaN(atMs));
  return near.length >= NEARLY_ALL * known.length && known.length >= NEARLY_ALL * kind.atMs.length;
}

/**
 * Whether a further time of exposures' rows is when their files were written: soon after each end that has one, and of
 * several such times the one that says so, or else the first.
 */
export function isWritten(part: Part, spans: ExposureSpans, parts: readonly Part[]): boolean {
  if (!isBehind(part, spans)) return false;
  const all = parts.filter((one) => one.whole === part.whole && isBehind(one, spans));
  const named = all.filter(({ slot }) => saysSaved(plainWords(slot.path ?? '')));
  const rivals = named.length > 0 ? named : all;
  const first = (one: Part): number => one.kind.atMs.find((atMs) => !Number.isNaN(atMs)) ?? NaN;
  return rivals.includes(part) && rivals.every((one) => !(first(one) < first(part)));
}

/** Whether a further time of exposures' rows stands soon after each end that has a file. */
function isBehind({ whole, kind }: Part, spans: ExposureSpans): boolean {
  if (whole.exposure === undefined) return false;
  const [, ends = []] = endsOf(whole, spans);
  const named = whole.atMs.map((_, i) => whole.slots.some(({ perLine }) => isFrameFile(perLine[i] ?? '')));
  const written = kind.atMs.filter(
    (atMs, i) => named[i] === true && atMs >= (ends[i] ?? NaN) && atMs - (ends[i] ?? NaN) <= WRITTEN_MS,
  );
  return written.length > 0 && written.length >= NEARLY_ALL * named.filter(Boolean).length;
}

/** The beginnings and the ends of a kind's exposures, ms. */
function endsOf(kind: Kind, { ranges, spans, lasted }: ExposureSpans): readonly (readonly number[])[] {
  const ends = ranges.get(kind) ?? spans.get(kind);
  const slot = lasted.get(kind);
  const ended = ends?.kind.atMs ?? kind.atMs;
  const begun = ended.map((atMs, i) => atMs - (ends?.tookMs[i] ?? (slot === undefined ? NaN : lengthMs(slot, i))));
  return [begun, ended];
}
