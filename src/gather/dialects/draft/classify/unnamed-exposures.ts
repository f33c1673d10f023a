import type { EventName } from '../../../../model/index.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { courseOf, cutsShort } from '../lexicon/said.js';
import { isOfSeconds } from '../lengths.js';
import { tookUnit } from '../group-names.js';

/** Nothing else takes so many seconds through a filter (common practice, no source), s. */
const LONG_S = 15;
/** Words with this much evidence name something. */
const NAMED = 2;
const BEGUN = 3;
const ENDED = 3;
const MIN_LINES = 3;
/** Fraction of numbers of one kind that the other has as well. */
const ALIKE = 0.7;

/**
 * Lines that name no exposure but can be about nothing else: `no. 34 begins, R 300 s` has a filter and seconds, and
 * `no. 34 ends` the same numbers.
 *
 * @param own the evidence of each kind, which is added to
 */
export function unnamedExposures(own: ReadonlyMap<Kind, Map<EventName, number>>): void {
  const isUnnamed = (kind: Kind): boolean => Math.max(0, ...(own.get(kind)?.values() ?? [])) < NAMED;
  const isExposure = (kind: Kind): boolean => {
    return isUnnamed(kind) || bestOf(own.get(kind)) === 'exposure-begin';
  };
  const begun = [...own.keys()].filter((kind) => kind.count >= MIN_LINES && isBegun(kind) && isExposure(kind));
  for (const kind of begun) raise(own.get(kind), 'exposure-begin', BEGUN);
  for (const kind of begun)
    for (const [other, evidence] of own) {
      if (other === kind || !hasNumbersOf(other, kind)) continue;
      const said = other.wording.slice(other.lead);
      // `No. 34 aborted (clouds)`: the reason is no hold of its own.
      if (cutsShort(said) && bestOf(evidence) !== 'exposure-abort')
        raise(evidence, 'exposure-abort', Math.max(0, ...evidence.values()) + ENDED);
      else if (isUnnamed(other) && other.count >= MIN_LINES && isOnly(said, 'ends'))
        raise(evidence, 'exposure-end', ENDED);
    }
}

function bestOf(evidence: ReadonlyMap<EventName, number> | undefined): EventName | undefined {
  return [...(evidence ?? [])].sort((a, b) => b[1] - a[1])[0]?.[0];
}

function isBegun({ wording, lead, slots }: Kind): boolean {
  if (!isOnly(wording.slice(lead), 'begins') || slots.some(({ type }) => type === 'file')) return false;
  const isLong = (slot: Slot): boolean =>
    isOfSeconds(slot) && slot.values.every((value) => numberIn(value) * (tookUnit(slot) ?? 1) >= LONG_S);
  return slots.some(({ type }) => type === 'filter') && slots.some(isLong);
}

function isOnly(text: string, course: 'begins' | 'ends'): boolean {
  const said = courseOf(text);
  return said.has(course) && !said.has(course === 'begins' ? 'ends' : 'begins');
}

/** Whether a kind counts with the numbers of another, under the same word. */
function hasNumbersOf(kind: Kind, other: Kind): boolean {
  return kind.slots.some((slot) =>
    other.slots.some((one) => {
      if (slot.type !== 'number' || one.type !== 'number' || isOfSeconds(one)) return false;
      if (slot.before[0] === undefined || slot.before[0] !== one.before[0]) return false;
      const numbers = new Set(one.perLine);
      const again = slot.perLine.filter((value) => value !== undefined && numbers.has(value));
      return one.values.length > 1 && again.length >= ALIKE * slot.perLine.length;
    }),
  );
}

function raise(evidence: Map<EventName, number> | undefined, event: EventName, value: number): void {
  evidence?.set(event, Math.max(evidence.get(event) ?? 0, value));
}
