import { beginOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import type { TrainOf } from './classify/withdrawal.js';
import type { Kind } from './kinds/kind.js';
import { NEXT } from './lexicon/next-at-once.js';
import { plainWords } from './lexicon/plain-words.js';
import { stateChange } from './lexicon/state-changes.js';
import { SUBJECTS } from './lexicon/subjects.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** Evidence of a named subject and its outcome. */
const CLEAR = 3.4;
/** Evidence that a frame is done, where the same line says that it was saved. */
const CLOSED = 2.4;
/** And where a state is left, if the one entered is named as well. */
const LEFT = 2.9;
const OWED = 2.2;
const CLAUSES =
  /[;,.:!–—]\s|\s[-–—+&]\s|\s(?:and|und|et|e|y|en|i|a|then|dann|puis|poi|luego|depois|dan)\s|[、，。；]|(?<=\p{Script=Han})[,;.](?=\p{Script=Han})/u;
const SAVED = SUBJECTS.find(({ id }) => id === 'frame')?.strong;
/** Maximum distance of another line with the same report. */
const NEAR_MS = 30_000;
const ELSEWHERE = 0.3;
/** Minimum number of lines for a constant word not to be a value. */
const MANY = 4;
/** Values of a field that is set. */
const SET = /^(?:1|true|yes|y)$/i;

/**
 * Whether lines with a file that report its saving also report that a frame was closed, or waits for the next dither.
 */
export function savesBesides({ slots, wording }: Kind, event: EventName): boolean {
  return (
    (event === 'exposure-end' || event === 'dither-ready') &&
    slots.some(({ type }) => type === 'file') &&
    SAVED?.test(plainWords(wording)) === true
  );
}

/** Whether a clause of a line with a file says that the frame is done: `frame 3 done and saved as …`. */
function closesBesides({ slots, wording, lead }: Kind): boolean {
  const clauses = wording.slice(lead).split(CLAUSES);
  return slots.some(({ type }) => type === 'file') && clauses.some((clause) => says(clause, 'exposure-end', CLOSED));
}

/** Whether words report an event, and no other with more evidence. */
function says(text: string, event: EventName, least = CLEAR): boolean {
  const evidence = wordEvidence(text);
  const value = evidence.get(event) ?? 0;
  return value >= least && value >= Math.max(...evidence.values());
}

/** Maximum difference between begin and end of something merely named. */
const TIE = 0.6;

/** Whether words name the subject of an event, and nothing says that it is over. */
function mayTell(text: string, event: EventName): boolean {
  const evidence = wordEvidence(text);
  const value = evidence.get(event) ?? 0;
  return value >= OWED && value >= Math.max(...evidence.values()) - TIE;
}

/** Whether the clauses of a line report both events in immediate succession: `moved, waiting for it to settle`. */
export function tellsBoth(kind: Kind, one: EventName, other: EventName): boolean {
  if (one === 'frame-saved' && other === 'exposure-end') return closesBesides(kind);
  const { wording, lead } = kind;
  const [before, after] = NEXT[one]?.includes(other) === true ? [one, other] : [other, one];
  if (NEXT[before]?.includes(after) !== true) return false;
  const isSaid = (event: EventName, text: string): boolean => (wordEvidence(text).get(event) ?? 0) >= CLEAR;
  return dividedIn(wording.slice(lead)).some(({ front, rest }) => isSaid(before, front) && isSaid(after, rest));
}

/** A text split between two of its clauses, at each boundary in turn. */
function dividedIn(text: string): { readonly front: string; readonly clause: string; readonly rest: string }[] {
  const between = [...text.matchAll(new RegExp(CLAUSES, 'gu'))].map(({ 0: { length }, index }) => ({
    from: index,
    to: index + length,
  }));
  return between.map(({ from, to }, i) => ({
    front: text.slice(0, from),
    clause: text.slice(to, between[i + 1]?.from),
    rest: text.slice(to),
  }));
}

/**
 * A second event of a kind's lines that directly follows or precedes the first: `closed, saved as h0001.fits`, `moved,
 * waiting for it to settle`. None if other lines report it for the same train.
 *
 * @param taken the other kinds of the log with their events
 */
export function impliedBy(
  kind: Kind,
  event: EventName,
  taken: readonly (readonly [Kind, EventName])[],
  trainOf: TrainOf = () => -1,
): EventName | null {
  const isElsewhere = (also: EventName): boolean => {
    const others = taken
      .filter(([one, name]) => name === also && one !== kind)
      .flatMap(([one]) => one.atMs.map((atMs, nth) => ({ atMs, train: trainOf(one, nth) })));
    const beside = kind.atMs.filter((atMs, nth) => {
      const own = trainOf(kind, nth);
      return others.some(
        (other) => Math.abs(other.atMs - atMs) < NEAR_MS && (own < 0 || other.train < 0 || other.train === own),
      );
    });
    return beside.length > ELSEWHERE * kind.atMs.length;
  };
  if (savesBesides(kind, event)) return isElsewhere('frame-saved') ? null : 'frame-saved';
  // A saved frame has been closed.
  if (event === 'frame-saved' && kind.slots.some(({ type }) => type === 'file'))
    return closesBesides(kind) && !isElsewhere('exposure-end') ? 'exposure-end' : null;
  // If other lines report the begin and none the end, the end is here, on little evidence.
  const isOwed = (also: EventName): boolean =>
    !taken.some(([, name]) => name === also) && taken.some(([, name]) => name === beginOf(also));
  // `Shift done, settling`: settling whose end other lines report, and whose begin none does.
  const isOwedBegin = (also: EventName): boolean =>
    also === 'settling-begin' &&
    !taken.some(([, name]) => name === also) &&
    taken.some(([, name]) => name === 'settling-end');
  const isStated = (also: EventName, text: string): boolean =>
    (says(text, also, isOwed(also) ? OWED : CLEAR) || (isOwedBegin(also) && mayTell(text, also))) && !isElsewhere(also);
  const divided = dividedIn(kind.wording.slice(kind.lead));
  // Apparent clauses may be one: `a` is `and` in some languages.
  const clauses = divided.flatMap(({ clause, rest }) => (clause === rest ? clause : [clause, rest]));
  // `done=dither now=settling`: a field with the same word on all lines; or `settling=1`, a field that is set on all.
  const states = kind.slots.flatMap(({ path, type, values }) => {
    if (path === null || values.length !== 1 || kind.count < MANY) return [];
    if (values.every((value) => SET.test(value))) return path;
    return type === 'text' ? values : [];
  });
  const next = (NEXT[event] ?? []).find((also) => [...clauses, ...states].some((clause) => isStated(also, clause)));
  if (next !== undefined) return next;
  const left = leftState(kind);
  // The text before the last clause: `guiding: started, settling` has three.
  const fronts = divided.map(({ front }) => front);
  // `moved, waiting for it to settle`, and `shifting -> settling`, where the line is classified as the second.
  const before = EVENT_NAMES.find(
    (also) =>
      NEXT[also]?.includes(event) === true &&
      ((left === also && !isElsewhere(also)) || fronts.some((front) => isStated(also, front))),
  );
  return before ?? null;
}

/** What ends as a state is left. */
function leftState({ wording, lead }: Kind): EventName | null {
  const change = stateChange(wording.slice(lead), plainWords(wording.slice(0, lead)));
  return [...(change ?? [])].find(([event, value]) => beginOf(event) !== undefined && value >= LEFT)?.[0] ?? null;
}

/** Whether the first of two events happens directly before the second. */
export function isBefore(also: EventName, event: EventName): boolean {
  const isSaved = also === 'frame-saved' && event === 'dither-ready';
  return NEXT[also]?.includes(event) === true || isSaved || (also === 'exposure-end' && event === 'frame-saved');
}
