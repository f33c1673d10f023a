import type { EventName } from '../../../model/index.js';
import type { FrameTimes } from '../check/agreement.js';
import type { Kind } from './kinds/kind.js';
import { wordEvidence } from './lexicon/word-evidence.js';

const NEAR_MS = 4000;
const QUARTER_MS = 900_000;
/** Maximum number of lines of a kind, and of frames, that are compared. */
const COMPARED = 300;
/** Lines that coincide with frames open the shutter, whatever their words; existing file names are saved frames. */
const COINCIDES = 3;
const NAMED = 2;
const SHARE = 0.7;
/** Fewer lines are accidents, more than this many per frame are about something else. */
const MIN_LINES = 4;
const MOST_LINES = 3;
const AS_COMMON = 0.8;
const AS_NEAR_MS = 1000;
const OUTRIGHT = 2;
const HALF = 0.5;
/** A log reports the exposures of one of several trains; a turned wheel coincides with few frames. */
const FEW = 0.2;

/**
 * What the frames of the session imply for kinds of line.
 *
 * @param beside other evidence for the events of a kind
 * @param isByInstants whether when lines are written counts, or only the files that they name
 */
export function frameEvidence(
  kinds: readonly Kind[],
  frames: readonly FrameTimes[],
  beside: (kind: Kind) => ReadonlyMap<EventName, number> = () => new Map(),
  isByInstants = true,
): Map<Kind, Map<EventName, number>> {
  const evidence = new Map<Kind, Map<EventName, number>>();
  const add = (kind: Kind, event: EventName, value: number): void => {
    const own = evidence.get(kind) ?? new Map<EventName, number>();
    evidence.set(kind, own.set(event, (own.get(event) ?? 0) + value));
  };
  const names = new Set(frames.map(({ file }) => baseName(file)));
  const begins = frames.map(({ beginMs }) => beginMs).slice(0, COMPARED);
  const ends = frames.map(({ beginMs, seconds }) => beginMs + seconds * 1000).slice(0, COMPARED);
  for (const kind of kinds) {
    for (const [event, value] of beside(kind)) add(kind, event, value);
    const files = kind.slots.find(({ type }) => type === 'file');
    if (files?.values.some((value) => names.has(baseName(value)))) add(kind, 'frame-saved', NAMED);
  }
  if (!isByInstants) return evidence;
  const compared = kinds.filter(
    (kind) =>
      kind.count >= MIN_LINES &&
      frames.length >= MIN_LINES &&
      kind.count <= MOST_LINES * frames.length &&
      !speaksForAnother(kind),
  );
  // If frames follow each other directly, lines about an end coincide with the next begin as well.
  const stands = compared.map((kind) => ({ atBegin: coincidence(kind, begins), atEnd: coincidence(kind, ends) }));
  const isBegin = stands.map(({ atBegin, atEnd }) => worthOf(atBegin) >= worthOf(atEnd));
  const opening = best(stands.flatMap(({ atBegin }, i) => (isBegin[i] === true ? [atBegin] : [])));
  // A file is saved after its exposure is over, if by less than the shutter took to open.
  const closing = first(
    best(
      stands.flatMap(({ atEnd }, i) => (isBegin[i] === true ? [] : [atEnd])),
      worthOfFirst,
    ),
  );
  if (framesOf(closing) >= FEW * ends.length) for (const { kind } of closing) add(kind, 'exposure-end', COINCIDES / 2);
  // If more frames end at these lines, or closer to them, than begin at some, the latter report what precedes a frame.
  if (framesOf(opening) < Math.max(FEW * begins.length, AS_COMMON * framesOf(closing))) return evidence;
  for (const one of nearest([...closing, ...opening]))
    if (opening.includes(one)) add(one.kind, 'exposure-begin', COINCIDES);
  return evidence;
}

/** Lines of a kind, and the instants they coincide with. */
interface Coincidence {
  readonly kind: Kind;
  readonly share: number;
  readonly instants: ReadonlySet<number>;
  /** Offset from the lines to the instants, ms: the median. */
  readonly gapMs: number;
  /** How far the lines are behind the instants, ms: the median. */
  readonly lateMs: number;
}

/** Whether words explicitly name something other than an exposure, such as what directly follows or precedes one. */
function speaksForAnother({ wording, hints, lead }: Kind): boolean {
  const words = [...wordEvidence(wording, hints, lead)];
  return (
    words.some(([, value]) => value >= OUTRIGHT) &&
    !words.some(([event, value]) => event.startsWith('exposure-') && value > 0)
  );
}

/** The evidence that lines report the instants: more of them, and closer. */
function worthOf({ instants, gapMs }: Coincidence): number {
  return instants.size === 0 ? 0 : instants.size * (1 - gapMs / (2 * NEAR_MS));
}

/** The same, where of lines about the same instants the first is wanted. */
function worthOfFirst({ instants, lateMs }: Coincidence): number {
  return instants.size === 0 ? 0 : instants.size * (1 - (lateMs + NEAR_MS) / (4 * NEAR_MS));
}

/** Those that coincide with the instants; of several with the same instants the best. */
function best(all: readonly Coincidence[], worth = worthOf): readonly Coincidence[] {
  const found = all.filter(({ share }) => share >= SHARE);
  const isAhead = (a: Coincidence, b: Coincidence): boolean =>
    worth(a) > worth(b) || (worth(a) === worth(b) && found.indexOf(a) < found.indexOf(b));
  return found.filter(
    (one) =>
      !found.some((other) => {
        if (other === one || !isAhead(other, one)) return false;
        const shared = [...one.instants].filter((instant) => other.instants.has(instant)).length;
        return shared >= HALF * one.instants.size;
      }),
  );
}

/** Those hardly farther from the instants than the closest. */
function nearest(found: readonly Coincidence[]): readonly Coincidence[] {
  const leastMs = Math.min(...found.map(({ gapMs }) => gapMs));
  return found.filter(({ gapMs }) => gapMs < leastMs + AS_NEAR_MS);
}

/** Those hardly later than the first. */
function first(found: readonly Coincidence[]): readonly Coincidence[] {
  const leastMs = Math.min(...found.map(({ lateMs }) => lateMs));
  return found.filter(({ lateMs }) => lateMs < leastMs + AS_NEAR_MS);
}

/** Number of frames that coincide with lines. */
function framesOf(found: readonly Coincidence[]): number {
  return new Set(found.flatMap(({ instants }) => [...instants])).size;
}

/**
 * The lines that coincide with one of the instants, for the best shift by quarter hours: zone and date of the lines are
 * not known yet.
 */
function coincidence(kind: Kind, instants: readonly number[]): Coincidence {
  const lines = kind.atMs.filter((atMs) => !Number.isNaN(atMs)).slice(0, COMPARED);
  const votes = new Map<number, { lines: number; instants: Set<number>; latesMs: number[] }>();
  for (const line of lines) {
    // Trains may begin together: each line is matched to the nearest.
    const nearest = new Map<number, { readonly instant: number; readonly gapMs: number; readonly lateMs: number }>();
    for (const instant of instants) {
      const quarters = Math.round((instant - line) / QUARTER_MS);
      const lateMs = line + quarters * QUARTER_MS - instant;
      const gapMs = Math.abs(lateMs);
      if (gapMs <= NEAR_MS && gapMs < (nearest.get(quarters)?.gapMs ?? Infinity))
        nearest.set(quarters, { instant, gapMs, lateMs });
    }
    for (const [quarters, { instant, lateMs }] of nearest) {
      const own = votes.get(quarters) ?? { lines: 0, instants: new Set(), latesMs: [] };
      votes.set(quarters, own);
      own.lines++;
      own.instants.add(instant);
      own.latesMs.push(lateMs);
    }
  }
  const [most] = [...votes.values()].sort((a, b) => b.lines - a.lines);
  const latesMs = (most?.latesMs ?? []).sort((a, b) => a - b);
  const gapsMs = latesMs.map(Math.abs).sort((a, b) => a - b);
  return {
    kind,
    share: (most?.lines ?? 0) / Math.max(1, Math.min(lines.length, instants.length)),
    instants: most?.instants ?? new Set(),
    gapMs: gapsMs[gapsMs.length >> 1] ?? Infinity,
    lateMs: latesMs[latesMs.length >> 1] ?? Infinity,
  };
}

function baseName(path: string): string {
  return path.split(/[\\/]/).pop() ?? path;
}
