import { beginOf, endOf, type EventName, type SpanName } from '../../../../model/index.js';
import { isFilterName } from '../kinds/values.js';
import { MOTIONS, type Motion } from './motions.js';
import { plainWords } from './plain-words.js';
import { wordList } from './word-list.js';
import { SUBJECTS, type SubjectId } from './subjects.js';
import { isReadyToDither } from './main-clause.js';

/** `waiting → exposing`: a device leaves one state and enters another. */
const ARROW = /^(.*\S)(?:\s*(?:→|⇒|->|=>|»)\s*|\s>\s)(\S.*)$/su;

const DITHER = SUBJECTS.find(({ id }) => id === 'dither');
const FRAME = SUBJECTS.find(({ id }) => id === 'frame');
const waits = (state: string): boolean => MOTIONS.wait.test(plainWords(state));
const isStill = (state: string): boolean => IDLE.test(plainWords(state));

/** The number of the state left, and of the one entered, followed by words. */
const CODE_LEFT = /(?:^|\s)\p{L}{0,3}[-_]?\d+$/u;
const CODE_ENTERED = /^\p{L}{0,3}[-_]?\d+\s+.*\p{L}{2}/su;

const STRONG = 2.4;
const WEAK = 1.2;
const ENTERS = 1.2;
const LEAVES = 1;
/** `dithering -> settling` says both; the state entered ranks first. */
const LEAVES_FOR = 0.6;

/** An idle device. */
const IDLE = wordList(
  `idle idling still resting at_rest standby stand_by leerlauf untatig ruht in_ruhe au_repos inactif inactive inactivo
     inactiva en_reposo reposo a_riposo riposo inattiv* repouso inativ* in_rust bezczynn* nieczynn* spoczyn*
     necinn* v_klidu
     vilar hviler ferma fermo free frei libre libero livre vrij woln* voln* nothing_to_do 空き
     アイドル 待機 休止 空闲 闲置 待机 静止`,
);
/** Devices that do one thing and are idle otherwise. */
const DEVICES = SUBJECTS.filter(({ id }) => ['exposure', 'focus', 'filter', 'slew'].includes(id));

const SETTLING = SUBJECTS.find(({ id }) => id === 'settling');
const DONE: readonly Motion[] = ['did', 'arrive', 'stop'];

/** Whether a device is idle in a state: finished, `focused`, or still, since only a mount settles. */
function rests(words: string, isOfMount: boolean): boolean {
  if (IDLE.test(words)) return true;
  if (isOfMount || MOTIONS.doing.test(words)) return false;
  return DONE.some((motion) => MOTIONS[motion].test(words)) || SETTLING?.strong.test(words) === true;
}

/** A guider without its star. */
const STARLESS = /(?:star.?lost|lost.?star|no.?star)/;

/** Whether words say that a guider has no star. */
export function namesStarless(words: string): boolean {
  return STARLESS.test(words);
}

/** What begins with the state of each subject. */
const BEGINS: Readonly<Partial<Record<SubjectId, EventName>>> = {
  exposure: 'exposure-begin',
  dither: 'dither-begin',
  settling: 'settling-begin',
  focus: 'focus-begin',
  filter: 'filter-begin',
  slew: 'slew-begin',
  centre: 'centre-begin',
  flip: 'flip-begin',
  guiding: 'guiding-begin',
  hold: 'hold-begin',
};

/** Whether a state names two filters, the old and the new one. */
function isBetween(state = ''): boolean {
  const [from = '', to = '', ...others] = state.trim().split(/\s?[-=]?>\s?/);
  return others.length === 0 && isFilterName(from) && isFilterName(to);
}

/**
 * The evidence of a state change: entering a state begins what it is named after, leaving it ends that. `null` when the
 * wording is not a state change.
 *
 * @param source the words of the device whose state it is, '' if it is not named
 */
export function stateChange(wording: string, source = ''): Map<EventName, number> | null {
  const [, left, behind = ''] = ARROW.exec(wording) ?? [];
  // The trailing bracket gives the reason, or values.
  const right = behind.replace(/\s*[([{（].*$/su, '') || behind;
  // `Ha → Ha>OIII → OIII`: moving from one to the other.
  if (isBetween(right) && !isBetween(left)) return new Map([['filter-begin', STRONG + ENTERS]]);
  if (isBetween(left) && !isBetween(right)) return new Map([['filter-end', STRONG + LEAVES]]);
  // Numbers before and after, as in `width 2.9 -> 2.1`, are not states.
  if (left === undefined || /#\s*$/.test(left)) return null;
  // `wheel: turning -> Ha`: the movement is over once the destination is reached.
  if (/^#/.test(right)) return reached(plainWords(left), source);
  // `S110->S115 filter in position`: states by number, followed by what has happened in words.
  if (CODE_LEFT.test(left) && CODE_ENTERED.test(right)) return null;
  // `camera idle -> waiting (for the dither)`: the next event shows what the wait was for.
  if (isReadyToDither(plainWords(behind)) && ownerOf(source) === null)
    return new Map([['dither-ready', STRONG + ENTERS]]);
  if (waits(right) && ownerOf(source) === null) {
    if (DITHER?.strong.test(plainWords(behind)) === true) return new Map([['dither-ready', STRONG + ENTERS]]);
    if (isStill(left) || begunIn(left, source).some(([event]) => event === 'exposure-begin'))
      return new Map([['dither-ready', WEAK]]);
  }
  if (waits(left) && (isStill(right) || waits(right))) return new Map();
  const evidence = new Map<EventName, number>();
  const add = (event: EventName, value: number): void =>
    void evidence.set(event, Math.max(evidence.get(event) ?? 0, value));
  // `wheel idle -> spinning`: whatever the word, the device does what it is made for.
  const device = DEVICES.find(({ strong, weak }) => strong.test(source) || weak.test(source));
  const begun = device === undefined ? undefined : BEGINS[device.id];
  const isOfMount = device?.id === 'slew';
  const [fromIdle, toIdle] = [left, right].map((state) => rests(plainWords(state), isOfMount));
  if (begun !== undefined && fromIdle !== toIdle) {
    const named = begunIn(fromIdle ? right : left, '').filter(([event]) => !event.startsWith('guiding'));
    const [[event, strength] = [begun, WEAK]] = named;
    const end = endOf(event);
    if (fromIdle) add(event, strength + ENTERS);
    else if (end !== undefined && beginOf(end) !== undefined) add(end, strength + LEAVES);
    return evidence;
  }
  // `reading → saved (m33_0001.fits)`: nothing is in progress in this state.
  const isSaved = FRAME?.strong.test(plainWords(right)) === true;
  if (isSaved) add('frame-saved', STRONG + ENTERS);
  const entered = isSaved ? [] : begunIn(right, source);
  for (const [begin, strength] of entered) add(begin, strength + ENTERS);
  for (const [begin, strength] of begunIn(left, source)) {
    const end = begin === 'dither-ready' ? undefined : endOf(begin);
    if (end !== undefined && beginOf(end) !== undefined)
      add(end, strength + (entered.length > 0 ? LEAVES_FOR : LEAVES));
  }
  if (evidence.size === 0) for (const [event, value] of turnedTo(right, source)) add(event, value);
  // A guider guides in between: the other states it enters or leaves are more informative.
  const others = [...evidence.keys()].filter((event) => !event.startsWith('guiding-begin') && event !== 'guiding-end');
  if (others.length > 0) {
    evidence.delete('guiding-begin');
    evidence.delete('guiding-end');
  }
  return evidence;
}

/** Whether a state change ends a wait: its words then no longer mean waiting. */
export function leavesWait(wording: string): boolean {
  const [, left] = ARROW.exec(wording) ?? [];
  return left !== undefined && waits(left);
}

/** What ends when an active device has reached a value. */
function reached(left: string, source: string): Map<EventName, number> | null {
  if (!MOTIONS.doing.test(left)) return null;
  const ended = begunIn(left, source).flatMap(([begin, strength]): [EventName, number][] => {
    const end = endOf(begin);
    return end === undefined || beginOf(end) === undefined ? [] : [[end, strength + LEAVES]];
  });
  return ended.length === 0 ? null : new Map(ended);
}

/** The meaning of a state that does not name an action: `on`, `off`, `closed`. */
function turnedTo(state: string, source: string): [EventName, number][] {
  const words = plainWords(state);
  const is = (...motions: Motion[]): boolean => motions.some((motion) => MOTIONS[motion].test(words));
  switch (ownerOf(source)) {
    case 'guiding':
      return is('stop') ? [['guiding-end', WEAK + LEAVES]] : is('start') ? [['guiding-begin', WEAK + LEAVES]] : [];
    case 'hold':
      if (is('close', 'danger', 'pause')) return [['hold-begin', WEAK + ENTERS]];
      return is('open', 'clear', 'resume') ? [['hold-end', WEAK + ENTERS]] : [];
    default:
      return [];
  }
}

/** The owner of a state, if it is part of guiding or causes holds. */
function ownerOf(source: string): 'guiding' | 'hold' | null {
  const names = (wanted: SubjectId): boolean =>
    SUBJECTS.some(({ id, strong, weak }) => id === wanted && (strong.test(source) || weak.test(source)));
  return names('guiding') ? 'guiding' : names('hold') ? 'hold' : null;
}

/** Whether a device's name is that of a guider. */
export function isGuider(source: string): boolean {
  return ownerOf(source) === 'guiding';
}

/** What each single-purpose device does. */
const DONE_BY: Readonly<Partial<Record<SubjectId, readonly SpanName[]>>> = {
  exposure: ['exposure'],
  focus: ['focus'],
  filter: ['filter'],
  centre: ['centre', 'slew'],
  slew: ['slew', 'centre', 'flip', 'hold', 'dither', 'settling'],
  guiding: ['guiding', 'dither', 'settling', 'guiding-rest', 'star-gap'],
};

/** What begins and ends with the states of a device of this name; `null` if unknown. */
export function doneBy(source: string): ReadonlySet<SpanName> | null {
  const named = SUBJECTS.flatMap(({ id, strong, weak }) =>
    strong.test(source) || weak.test(source) ? [DONE_BY[id]] : [],
  );
  const [spans] = named;
  return named.length === 1 && spans !== undefined ? new Set(spans) : null;
}

/** Whether a state of this name means an idle device. */
export function isIdle(state: string): boolean {
  return IDLE.test(plainWords(state));
}

/** Whether something begins in a guider state of this name: it settles, pauses, or has lost its star. */
export function isBeginning(state: string): boolean {
  return begunIn(state, 'guider').some(([event]) => event !== 'guiding-begin');
}

/** What begins in a state of this name. */
function begunIn(state: string, source: string): [EventName, number][] {
  const words = plainWords(state);
  // A guider that is blind has lost its star, one that is frozen is paused.
  if (ownerOf(source) === 'guiding') {
    if (MOTIONS.lose.test(words) || STARLESS.test(words)) return [['star-gap-begin', STRONG]];
    if (MOTIONS.pause.test(words)) return [['guiding-rest-begin', STRONG]];
  }
  if (namesStarless(words)) return [['star-gap-begin', STRONG]];
  const has = (motion: Motion): boolean => MOTIONS[motion].test(words);
  return SUBJECTS.flatMap(({ id, strong, weak }): [EventName, number][] => {
    const strength = strong.test(words) ? STRONG : weak.test(words) ? WEAK : 0;
    if (id === 'guiding' && has('pause')) return [['guiding-rest-begin', Math.max(strength, WEAK) + 0.5]];
    if (strength === 0 || id === 'noise') return [];
    // A guider that holds its star is not on hold.
    if (id === 'hold' && ownerOf(source) === 'guiding') return [];
    if (id === 'star' || id === 'guiding') {
      if (has('lose')) return [['star-gap-begin', strength + 0.5]];
      if (has('pause')) return [['guiding-rest-begin', strength + 0.5]];
    }
    if (id === 'dither' && (has('ready') || has('wait'))) return [['dither-ready', strength]];
    const begin = BEGINS[id];
    return begin === undefined ? [] : [[begin, strength]];
  });
}
