import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from './kind.js';
import { numberIn } from './values.js';
import { withSlots } from './with-slots.js';

/** A frame's file is written within this of its end, ms. */
const FILED_MS = 12_000;
const MIN_LINES = 8;
const NEARLY_ALL = 0.95;
/** Different lengths that a program is asked for, and how long they are, s. */
const MOST_LENGTHS = 12;
const SHORTEST_S = 15;
const LONGEST_S = 7200;
/** Where frames follow one another they are read out in less than this, ms; of so many lines at least. */
const READOUT_MS = 30_000;
const FOLLOW = 0.3;
const ROUNDED_MS = 1500;
/** What the number is called once it is known to be a length that has passed. */
const PASSED = ['seconds', 'took'] as const;

/**
 * Numbers in a column that is called something else, or nothing: `value`, `n`. They are seconds that have passed where
 * a file is written soon after every line, and where lines that follow one another stand just as far apart.
 *
 * @returns the kinds, with such numbers called what they are
 */
export function withUnnamedLengths(kinds: readonly Kind[]): Kind[] {
  const filesMs = kinds
    .flatMap(({ slots, atMs }) => (slots.some(({ type }) => type === 'file') ? atMs : []))
    .sort((a, b) => a - b);
  return filesMs.length < MIN_LINES ? [...kinds] : kinds.map((kind) => withLength(kind, filesMs));
}

function withLength(kind: Kind, filesMs: readonly number[]): Kind {
  if (kind.count < MIN_LINES || kind.slots.some((slot) => slot.type === 'file' || tookUnit(slot) !== null)) return kind;
  const found = kind.slots.filter((slot) => mayBeLength(slot) && standsSoFarApart(kind, slot));
  const [length] = found;
  if (length === undefined || found.length > 1) return kind;
  const filed = kind.atMs.filter((atMs) => filesMs.some((ms) => ms > atMs && ms - atMs <= FILED_MS));
  if (filed.length < NEARLY_ALL * kind.atMs.length) return kind;
  const slots = kind.slots.map((slot) => (slot === length ? { ...slot, before: [...PASSED, ...slot.before] } : slot));
  return withSlots(kind, slots);
}

function mayBeLength({ path, type, values, after }: Slot): boolean {
  return (
    path !== null &&
    type === 'number' &&
    after === '' &&
    values.length <= MOST_LENGTHS &&
    values.map(numberIn).every((value) => Number.isInteger(value) && value >= SHORTEST_S && value <= LONGEST_S)
  );
}

/** Whether no two lines stand nearer than the later one's number says, and many hardly farther. */
function standsSoFarApart({ atMs }: Kind, slot: Slot): boolean {
  const restMs = atMs.slice(1).map((ms, i) => ms - (atMs[i] ?? NaN) - numberIn(slot.perLine[i + 1]) * 1000);
  return (
    restMs.filter((ms) => ms >= -ROUNDED_MS).length >= NEARLY_ALL * restMs.length &&
    restMs.filter((ms) => ms >= -ROUNDED_MS && ms <= READOUT_MS).length >= FOLLOW * restMs.length
  );
}
