import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from './kind.js';
import { numberIn } from './values.js';
import { withSlots } from './with-slots.js';

/** A frame's file is written within this of its end, ms. */
const FILED_MS = 12_000;
const MIN_LINES = 8;
const NEARLY_ALL = 0.95;
/** Maximum number of different requested lengths, and their minimum, s. */
const MOST_LENGTHS = 12;
const SHORTEST_S = 15;
const LONGEST_S = 7200;
/** Consecutive frames are read out in less than this, ms; minimum number of such lines. */
const READOUT_MS = 30_000;
const FOLLOW = 0.3;
const ROUNDED_MS = 1500;
/** The name given to a number identified as an elapsed duration. */
const PASSED = ['seconds', 'took'] as const;

/**
 * Numbers in a column with another name or none: `value`, `n`. They are elapsed seconds if a file is written soon after
 * every line, and consecutive lines are exactly that far apart.
 *
 * @returns the kinds, with such numbers renamed
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

/** Whether no two lines are closer than the later one's number, and many hardly farther apart. */
function standsSoFarApart({ atMs }: Kind, slot: Slot): boolean {
  const restMs = atMs.slice(1).map((ms, i) => ms - (atMs[i] ?? NaN) - numberIn(slot.perLine[i + 1]) * 1000);
  return (
    restMs.filter((ms) => ms >= -ROUNDED_MS).length >= NEARLY_ALL * restMs.length &&
    restMs.filter((ms) => ms >= -ROUNDED_MS && ms <= READOUT_MS).length >= FOLLOW * restMs.length
  );
}
