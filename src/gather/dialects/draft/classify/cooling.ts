import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { isDegrees } from './degrees.js';

const MIN_LINES = 8;
/** Two coolers may alternate in the lines of a kind. */
const TURNS = 2;
const MOSTLY = 0.85;
/** How far a sensor may be above the setpoint during cooldown, and how far it may overshoot, °C. */
const ABOVE = 9;
const BELOW = 2;
/** Minimum cooldown, °C, and maximum intermediate rise. */
const FALLS = 10;
const RISES = 0.7;
const STEPS = 3;

/**
 * Detects a cooler from its numbers alone, with a setpoint lowered in steps: one temperature falls from line to line,
 * and the other, in whole degrees, falls ahead of it.
 */
export function followsSetpoint(kind: Kind): boolean {
  if (kind.count < MIN_LINES) return false;
  const numbers = kind.slots.filter(({ type }) => type === 'number');
  return numbers.some((still) =>
    numbers.some((moving) => moving !== still && falls(still) && falls(moving) && follows(moving, still)),
  );
}

function numbersOf({ perLine }: Slot): number[] {
  return perLine.map(numberIn);
}

/** Whether its values fall from line to line, or between every second line. */
function falls(slot: Slot): boolean {
  const own = numbersOf(slot);
  const later = own.slice(TURNS);
  if (own.some((value) => !(value >= -60 && value <= 45))) return false;
  const down = later.filter((value, i) => value <= (own[i] ?? NaN) + RISES).length;
  return down >= MOSTLY * later.length && Math.max(...own) - (own.at(-1) ?? NaN) >= FALLS;
}

function follows(moving: Slot, still: Slot): boolean {
  const [own, wanted] = [numbersOf(moving), numbersOf(still)];
  const steps = new Set(wanted).size;
  if (!wanted.every(Number.isInteger) || steps < STEPS || steps >= new Set(own).size) return false;
  const near = own.filter((value, i) => value >= (wanted[i] ?? NaN) - BELOW && value <= (wanted[i] ?? NaN) + ABOVE);
  return near.length >= MOSTLY * own.length;
}

/** Temperatures of a sensor, °C; and how a unit or a text states one. */
const COLDEST = -60;
const WARMEST = 45;
const IN_TEXT = /(?<![\p{L}\d])[-+\u2212]?\d+(?:[.,]\d+)?\s?(?:[°º]\s?C?|℃|C(?![\p{L}\d]))/u;

/** Whether the lines of a kind state a temperature that a cooled sensor may have: one with its unit, or below zero. */
export function statesTemperature({ slots }: Kind): boolean {
  return slots.some((slot) => {
    const { type, values, after } = slot;
    if (type === 'text') return values.length > 0 && values.every((value) => IN_TEXT.test(value));
    if (type !== 'number') return false;
    const own = values.map(numberIn);
    const isInRange = own.every((value) => value >= COLDEST && value <= WARMEST);
    return isInRange && (isDegrees(after) || own.some((value) => value < 0));
  });
}
