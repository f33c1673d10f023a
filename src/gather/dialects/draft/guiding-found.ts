import type { EventName } from '../../../model/index.js';
import { batchedGuiding, type OwnCount } from './guiding-batches.js';
import { guessGuiding } from './guiding-guess.js';
import { listedGuiding, type ListedGuiding } from './guiding-lists.js';
import { scaleLine } from './guiding-scale.js';
import { steadyGuiding } from './guiding-rhythm.js';
import type { Kind } from './kinds/kind.js';
import { joinedBy } from './layout/record-groups.js';
import { wordEvidence } from './lexicon/word-evidence.js';
import type { Reading } from './reading/reading.js';
import type { GuidingDraft, LineSection } from './report.js';
import type { HeadLine } from './time/base-lines.js';

/** Guiding samples of a log in any form, and the kinds of line that hold nothing else. */
export interface FoundGuiding {
  readonly guiding: GuidingDraft | undefined;
  /** Patterns of their own times. */
  readonly caught: readonly string[];
  /** What their times count from, if different from the lines'. */
  readonly section: LineSection | null;
  /** The log has little but samples. */
  readonly isAll: boolean;
  /** Kinds that are samples, not events. */
  readonly samples: ReadonlySet<Kind>;
  /** Likely events of kinds that report a period of guiding by containing its samples, beside other evidence. */
  evidence(kind: Kind): ReadonlyMap<EventName, number>;
}

/** A record with samples, a begin and an end is about guiding. */
const HOLDS_SAMPLES = 3;

/** Samples inside the log's records, `null` if there are none. */
export function listedIn({ layout, stamp, timePaths }: Reading, lines: readonly HeadLine[]): ListedGuiding | null {
  if (layout.kind !== 'records' || layout.form !== 'json') return null;
  const { start } = layout;
  return listedGuiding(start === null || start === 'stamp' ? lines : joinedBy(lines, start), stamp, timePaths);
}

/** The counter of a log's lines, `null` if its stamps are not counters. */
export function ownCountOf({ stamp, messages, fieldLines }: Reading): OwnCount | null {
  if (stamp?.pattern.includes('{elapsed') !== true) return null;
  const times = [...messages, ...fieldLines].map(({ atMs }) => atMs).filter((atMs) => !Number.isNaN(atMs));
  return { pattern: stamp.pattern, seconds: ((times.at(-1) ?? NaN) - (times[0] ?? NaN)) / 1000 };
}

/** Where a log may have guiding samples beside its kinds of line. */
export interface SamplePlaces {
  readonly lines: readonly HeadLine[];
  /** The first lines: one may state the scale. */
  readonly headTexts: readonly string[];
  readonly decimalComma: boolean;
  /** Those inside its records. */
  readonly listed: ListedGuiding | null;
  /** The counter of its lines, if their stamps are counters. */
  readonly own: OwnCount | null;
  /** The rows with two numbers named after the axes of the sky. */
  readonly rowed: Kind | null;
}

/** Finds the samples of a log, trying one form after another. */
export function guidingIn(
  kinds: readonly Kind[],
  { lines, headTexts, decimalComma, listed, own, rowed }: SamplePlaces,
): FoundGuiding {
  const steady = listed === null || listed.guiding.rhythm !== undefined ? steadyGuiding(lines, decimalComma) : null;
  // A line may say which sample its time belongs to.
  if (listed !== null && steady?.guiding.rhythm?.isStated !== true) return ofLists(kinds, listed);
  const texts = lines.map(({ text }) => text);
  const guess =
    guessGuiding(kinds, headTexts, texts, decimalComma) ??
    (steady === null && rowed !== null ? guessGuiding([rowed], headTexts, texts, decimalComma) : null);
  const batches = steady ?? (guess === null ? batchedGuiding(lines, decimalComma, own) : null);
  const held = batches === null ? [] : kinds.filter((kind) => isHeld(kind, batches.lines));
  return {
    guiding: batches?.guiding ?? guess?.guiding,
    caught: batches === null || batches.caught === null ? [] : [batches.caught],
    section: batches?.section ?? null,
    isAll: isGuidingLog(guess?.kind, kinds),
    samples: new Set([...(guess === null ? [] : [guess.kind]), ...held, ...kinds.filter(statesScale)]),
    evidence: () => new Map(),
  };
}

function ofLists(kinds: readonly Kind[], { guiding, caught, lines }: ListedGuiding): FoundGuiding {
  const holding = kinds.filter((kind) => isHeld(kind, lines));
  const isStretch = ({ slots }: Kind): boolean => slots.some(({ type }) => type === 'clock');
  const isAbout = (kind: Kind): boolean =>
    isHeld(kind, lines) && isStretch(kind) && (wordEvidence(kind.wording).get('guiding-begin') ?? 0) > 0;
  return {
    guiding,
    caught,
    section: null,
    isAll: false,
    // With only one time they add nothing.
    samples: new Set(holding.filter((kind) => !isStretch(kind))),
    evidence: (kind) => new Map(isAbout(kind) ? [['guiding-end', HOLDS_SAMPLES]] : []),
  };
}

/** Whether most lines of a kind are among these. */
function isHeld({ lines }: Kind, held: ReadonlySet<number>): boolean {
  return lines.filter((line) => held.has(line)).length > 0.5 * lines.length;
}

/** Whether lines state the guide camera's pixel scale, and nothing else. */
function statesScale({ examples, count }: Kind): boolean {
  return count <= FEW && examples.every((text) => scaleLine([text]) !== null);
}
const FEW = 3;

/** A log of samples, with a few lines about guiding. */
function isGuidingLog(samples: Kind | undefined, kinds: readonly Kind[]): boolean {
  if (samples === undefined || samples.count < 0.6 * kinds.reduce((sum, { count }) => sum + count, 0)) return false;
  return !kinds.some(
    (kind) => kind !== samples && kind.count > 2 && kind.slots.some(({ type }) => OF_IMAGING.has(type)),
  );
}

/** Values that lines about guiding alone do not contain. */
const OF_IMAGING: ReadonlySet<string> = new Set(['file', 'filter', 'designation']);
