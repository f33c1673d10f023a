import type { FieldName } from '../../../model/index.js';
import type { Kind, Slot } from './kinds/kind.js';
import { isRunning } from './kinds/running-numbers.js';
import { numberIn } from './kinds/values.js';
import { wordList } from './lexicon/word-list.js';
import { near } from './seconds-words.js';

const SET = wordList(
  'set setpoint target ordered soll goal consigna consigne pedido want wants wanted asked goal zadane zadan* cil ' +
    'impostat* richiest* demand* gewenst doel cilova alvo sollwert objetivo nastav* ustaw* ingesteld* 目标 目標 設定 设定 ' +
    '목표 설정',
);
/** Coldest and warmest, degrees Celsius, that a log states of a sensor (common practice, no source). */
const COLDEST = -100;
const WARMEST = 60;

/** The temperatures that a line about a cooler states: the one that is asked for, and the sensor's. */
export function coolerFacts({ slots }: Kind): readonly (readonly [Slot, FieldName])[] {
  const degrees = slots.filter((slot) => slot.type === 'number' && !isRunning(slot) && isDegrees(slot));
  const asked = degrees.filter((slot) => near(slot, SET, slot.path === null ? 1 : 2));
  const others = degrees.filter((slot) => !asked.includes(slot));
  // What is set alone is farther from the word for it: `cooler set to -10`.
  const [only] = others;
  if (asked.length === 0 && only !== undefined && others.every((slot) => slot === only) && near(only, SET, 3))
    return [[only, 'setpoint']];
  return [
    ...asked.map((slot) => [slot, 'setpoint'] as const),
    ...others.map((slot) => [slot, isSteady(slot) ? 'setpoint' : 'temperature'] as const),
  ];
}

function isDegrees(slot: Slot): boolean {
  return slot.values.map(numberIn).every((value) => value >= COLDEST && value <= WARMEST) && !/^[%WV]/.test(slot.after);
}

/** Whether nearly all lines state the same: what is measured varies. */
function isSteady({ values, perLine }: Slot): boolean {
  return values.length <= 3 && perLine.length > 2 * values.length;
}
