import { groupBy, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { NOTHING, type Transition } from './transitions.js';
import { isBeginning } from '../lexicon/state-changes.js';
import { MOTIONS } from '../lexicon/motions.js';
import { plainWords } from '../lexicon/plain-words.js';

/** A guider that is on guides. */
const ACTIVE = /^(?:on|an|ein|marche|active?|activo|aktiv|attivo|ativo|aan|aktywny|running|guiding)$/;

/**
 * When a guider whose states are logged begins and ends guiding: as it leaves the off state, having found its star, and
 * as it is switched off again.
 */
export function guiderTurns(transitions: readonly Transition[]): ReadonlyMap<Kind, EventName> {
  const turns = new Map<Kind, EventName>();
  for (const own of groupBy(transitions, ({ family }) => family).values()) {
    const [first] = [...own].sort((a, b) => a.kind.firstLine - b.kind.firstLine);
    if (first === undefined) continue;
    const states = new Set(own.flatMap(({ left, entered }) => [left, entered]));
    const off = new Set([...states].filter((state) => MOTIONS.stop.test(plainWords(state)) && !isBeginning(state)));
    if (off.size === 0 && !isBeginning(first.left)) off.add(first.left);
    if (off.size === 0 || off.size === states.size) continue;
    const starting = new Set([...states].filter((state) => isStart(state, own, off)));
    for (const { kind, left, entered } of own) {
      if (left === NOTHING) continue;
      const wasOff = off.has(left) || starting.has(left);
      const isOff = off.has(entered) || starting.has(entered);
      if (wasOff && !isOff) turns.set(kind, 'guiding-begin');
      if (!wasOff && isOff) turns.set(kind, 'guiding-end');
    }
  }
  return turns;
}

/**
 * A state in which a guider looks for its star: entered only from off, and always followed by one that others also lead
 * to.
 */
function isStart(state: string, own: readonly Transition[], off: ReadonlySet<string>): boolean {
  if (off.has(state) || isBeginning(state) || ACTIVE.test(plainWords(state))) return false;
  const before = own.filter(({ entered }) => entered === state);
  const after = own.filter(({ left }) => left === state);
  return (
    before.length > 0 &&
    after.length > 0 &&
    before.every(({ left }) => off.has(left)) &&
    after.every(({ entered }) => own.some((one) => one.entered === entered && one.left !== state))
  );
}
