import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import { MOTIONS, type Motion } from './motions.js';
import { plainWords } from './plain-words.js';
import { SUBJECTS, type SubjectId } from './subjects.js';

/** `waiting → exposing`: a device leaves one state and enters another. */
const ARROW = /^(.*\S)\s*(?:→|⇒|->|=>|»)\s*(\S.*)$/su;

const STRONG = 2.4;
const WEAK = 1.2;
const ENTERS = 1.2;
const LEAVES = 1;

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

/**
 * What a change of state speaks for: entering a state begins what it is called after, leaving it ends that. `null`
 * when the wording is no change of state.
 */
export function stateChange(wording: string): Map<EventName, number> | null {
  const [, left, right] = ARROW.exec(wording) ?? [];
  // Numbers before and after, as in `width 2.9 -> 2.1`, are no states.
  if (left === undefined || right === undefined || /#\s*$/.test(left) || /^#/.test(right)) return null;
  const evidence = new Map<EventName, number>();
  const add = (event: EventName, value: number): void =>
    void evidence.set(event, Math.max(evidence.get(event) ?? 0, value));
  for (const [begin, strength] of begunIn(right)) add(begin, strength + ENTERS);
  for (const [begin, strength] of begunIn(left)) {
    const end = begin === 'dither-ready' ? undefined : endOf(begin);
    if (end !== undefined && beginOf(end) !== undefined) add(end, strength + LEAVES);
  }
  // A guider guides between whiles: what else it enters or leaves tells more.
  const others = [...evidence.keys()].filter((event) => !event.startsWith('guiding-begin') && event !== 'guiding-end');
  if (others.length > 0) {
    evidence.delete('guiding-begin');
    evidence.delete('guiding-end');
  }
  return evidence;
}

/** What begins in a state of such a name. */
function begunIn(state: string): [EventName, number][] {
  const words = plainWords(state);
  const has = (motion: Motion): boolean => MOTIONS[motion].test(words);
  return SUBJECTS.flatMap(({ id, strong, weak }): [EventName, number][] => {
    const strength = strong.test(words) ? STRONG : weak.test(words) ? WEAK : 0;
    if (id === 'guiding' && has('pause')) return [['guiding-rest-begin', Math.max(strength, WEAK) + 0.5]];
    if (strength === 0 || id === 'noise') return [];
    if (id === 'star' || id === 'guiding') {
      if (has('lose')) return [['star-gap-begin', strength + 0.5]];
      if (has('pause')) return [['guiding-rest-begin', strength + 0.5]];
    }
    if (id === 'dither' && (has('ready') || has('wait'))) return [['dither-ready', strength]];
    const begin = BEGINS[id];
    return begin === undefined ? [] : [[begin, strength]];
  });
}
