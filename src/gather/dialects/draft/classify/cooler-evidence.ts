import type { EventName } from '../../../../model/index.js';
import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { statesTemperature } from './cooling.js';
import { isDegrees } from './degrees.js';

/** Evidence of words that name the cooler, and of those for what is cooled. */
const NAMED_COOLER = 2.7;

/**
 * A cooler has two temperatures, setpoint and actual, or one with its unit, or is named beside one below zero; what has
 * none of these is none.
 */
export function withCooler(kind: Kind, evidence: Map<EventName, number>): void {
  const said = evidence.get('cooler') ?? 0;
  const isNamed = said >= NAMED_COOLER && statesTemperature(kind);
  if (temperaturesIn(kind) < 2 && !kind.slots.some(isCelsius) && !isNamed) evidence.delete('cooler');
}

const TWO = /^[-+\u2212]?\d+(?:[.,]\d+)?\s*\p{L}?\s*[/|>→]+\s*[-+\u2212]?\d+(?:[.,]\d+)?/u;

/** `task 007`: no quantity is written like this. */
const isNumbering = (values: readonly string[]): boolean => values.some((value) => /^0\d+$/.test(value));

/** The numbers of a kind's lines that may be temperatures: fractions and lengths are not, and `4.0/-10C` is two. */
function temperaturesIn({ slots }: Kind): number {
  return slots.reduce((sum, slot) => {
    const { type, after, values } = slot;
    if (type === 'number') return sum + (after === '%' || isNumbering(values) || tookUnit(slot) !== null ? 0 : 1);
    return sum + (values.length > 0 && values.every((value) => TWO.test(value)) ? 2 : 0);
  }, 0);
}

/** A number with its unit, `-10.0 C`, in the cell or in the column's title. */
function isCelsius({ type, after, before }: Slot): boolean {
  return type === 'number' && (isDegrees(after) || (before[0] !== undefined && isDegrees(before[0])));
}
