import { beginOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import type { TrainOf } from './classify/withdrawal.js';
import type { Kind } from './kinds/kind.js';
import { NEXT } from './lexicon/next-at-once.js';
import { plainWords } from './lexicon/plain-words.js';
import { stateChange } from './lexicon/state-changes.js';
import { SUBJECTS } from './lexicon/subjects.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** A subject that is named, and what becomes of it. */
const CLEAR = 3.4;
/** A frame that is said to be done, where the same line says that it was saved. */
const CLOSED = 2.4;
/** And where a state is left, the one entered being named as well. */
const LEFT = 2.9;
const OWED = 2.2;
const CLAUSES =
  /[;,.:!–—]\s|\s[-–—+&]\s|\s(?:and|und|et|e|y|en|i|a|then|dann|puis|poi|luego|depois|dan)\s|[、，。；]|(?<=\p{Script=Han})[,;.](?=\p{Script=Han})/u;
const SAVED = SUBJECTS.find(({ id }) => id === 'frame')?.strong;
/** Another line that tells the same stands this near. */
const NEAR_MS = 30_000;
const ELSEWHERE = 0.3;
/** Lines from which on a word that all have is no value. */
const MANY = 4;
/** What a field says that is set. */
const SET = /^(?:1|true|yes|y)$/i;

/** Whether a frame has been closed, or waits for the next dither, in lines that say with a file that it was saved. */
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

/** Whether words tell of an event, and of none more. */
function says(text: string, event: EventName, least = CLEAR): boolean {
  const evidence = wordEvidence(text);
  const value = evidence.get(event) ?? 0;
  return value >= least && value >= Math.max(...evidence.values());
}

/** The beginning and the end of a thing that is but named are this near to each other. */
const TIE = 0.6;

/** Whether words name what an event is about, and nothing says that it is over. */
function mayTell(text: string, event: EventName): boolean {
  const evidence = wordEvidence(text);
  const value = evidence.get(event) ?? 0;
  return value >= OWED && value >= Math.max(...evidence.values()) - TIE;
}

/** Whether the clauses of a line tell both, one at once after the other: `moved, waiting for it to settle`. */
export function tellsBoth(kind: Kind, one: EventName, other: EventName): boolean {
  if (one === 'frame-saved' && other === 'exposure-end') return closesBesides(kind);
  const { wording, lead } = kind;
  const [before, after] = NEXT[one]?.includes(other) === true ? [one, other] : [other, one];
  if (NEXT[before]?.includes(after) !== true) return false;
  const isSaid = (event: EventName, text: string): boolean => (wordEvidence(text).get(event) ?? 0) >= CLEAR;
  return dividedIn(wording.slice(lead)).some(({ front, rest }) => isSaid(before, front) && isSaid(after, rest));
}

/** A text divided between two of its clauses, at each place in turn. */
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
 * What the lines of a kind tell besides its event, as one follows the other at once: `closed, saved as h0001.fits`,
 * `moved, waiting for it to settle`. Nothing where other lines tell it of the same train.
 *
 * @param taken the other kinds of the log with what they are taken for
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
  // What is saved has been closed.
  if (event === 'frame-saved' && kind.slots.some(({ type }) => type === 'file'))
    return closesBesides(kind) && !isElsewhere('exposure-end') ? 'exposure-end' : null;
  // What begins on other lines and ends on none ends here, however little is said of it.
  const isOwed = (also: EventName): boolean =>
    !taken.some(([, name]) => name === also) && taken.some(([, name]) => name === beginOf(also));
  // `Shift done, settling`: of settling that other lines say is over, and none that it begins.
  const isOwedBegin = (also: EventName): boolean =>
    also === 'settling-begin' &&
    !taken.some(([, name]) => name === also) &&
    taken.some(([, name]) => name === 'settling-end');
  const isStated = (also: EventName, text: string): boolean =>
    (says(text, also, isOwed(also) ? OWED : CLEAR) || (isOwedBegin(also) && mayTell(text, also))) && !isElsewhere(also);
  const divided = dividedIn(kind.wording.slice(kind.lead));
  // What seems to be two clauses may be one: `a` is `and` in some languages.
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
  // What stands before the last clause: `guiding: started, settling` is of three.
  const fronts = divided.map(({ front }) => front);
  // `moved, waiting for it to settle`, and `shifting -> settling`, where the second is what the line is taken for.
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

/** Whether the second of two events happens right before the first. */
export function isBefore(also: EventName, event: EventName): boolean {
  const isSaved = also === 'frame-saved' && event === 'dither-ready';
  return NEXT[also]?.includes(event) === true || isSaved || (also === 'exposure-end' && event === 'frame-saved');
}
