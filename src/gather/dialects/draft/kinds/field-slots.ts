import { plainWords } from '../lexicon/plain-words.js';
import type { FieldLine } from './field-line.js';
import type { Kind, Slot } from './kind.js';
import { timeCell, type TimeCell } from './time-cells.js';
import { textKinds } from './text-kinds.js';
import { typeOf } from './values.js';

/** The values in the fields of a kind's records. */
export interface FieldSlots {
  readonly slots: readonly Slot[];
  /** Fields that hold several values each: `300 s Ha NGC 281`. */
  readonly cells: readonly string[];
  /** Patterns for these fields that capture the slots in groups of these names. */
  patterns(groups: ReadonlyMap<Slot, string>): Readonly<Record<string, string>>;
}

/** Minimum fraction of a kind's records with a field, for a pattern on it. */
const FILLED = 0.9;

/**
 * @param lines of one kind
 * @param paths the fields that do not identify the kind
 * @param spelt those with durations in units
 */
export function fieldSlots(
  lines: readonly FieldLine[],
  paths: readonly string[],
  decimalComma: boolean,
  spelt: ReadonlySet<string> = new Set(),
): FieldSlots {
  const cells = new Map<string, Kind>();
  const times = new Map<string, TimeCell>();
  const slots: Slot[] = paths.flatMap((path): Slot[] => {
    const perLine = lines.map(({ fields }) => fields.get(path));
    // A pattern on a field that few records have would exclude the rest.
    const isFilled = perLine.filter((value) => (value ?? '') !== '').length >= FILLED * lines.length;
    const front = !isFilled || lines.some(({ timesMs }) => timesMs?.has(path)) ? null : timeCell(lines, path);
    if (front !== null) {
      times.set(path, front);
      return [front.time, front.rest];
    }
    const distinct = [...new Set(perLine.filter((value) => value !== undefined))].slice(0, 24);
    const cell =
      typeOf(distinct) === 'text' && !spelt.has(path) && !lines.some(({ timesMs }) => timesMs?.has(path))
        ? compositeCell(lines, path, decimalComma)
        : null;
    if (cell !== null) {
      const own = plainWords(path).split(' ').reverse();
      // A time with constant words is as good as a separate field, if there is none.
      const isFront =
        isFilled &&
        lines.every(({ timesMs = new Map() }) => timesMs.size === 0) &&
        cell.slots.length === 1 &&
        cell.slots[0]?.type === 'clock';
      const named = new Map(
        cell.slots.map(
          (slot) => [{ ...slot, before: [...slot.before, ...own], ...(isFront ? { isFront } : {}) }, slot] as const,
        ),
      );
      cells.set(path, {
        ...cell,
        slots: [...named.keys()],
        when: (groups) => cell.when(new Map([...groups].map(([slot, name]) => [named.get(slot) ?? slot, name]))),
      });
      return [...named.keys()];
    }
    const timesMs = lines.map((line) => line.timesMs?.get(path) ?? NaN);
    const isTime = timesMs.some((atMs) => !Number.isNaN(atMs));
    const slot = {
      path,
      // What a record is in belongs to its path, not to its words.
      before: plainWords(path.replace(/^(?:in\.)+/, ''))
        .split(' ')
        .reverse(),
      after: '',
      type: isTime
        ? ('clock' as const)
        : spelt.has(path) && distinct.length > 0
          ? ('number' as const)
          : typeOf(distinct),
      ...(spelt.has(path) ? { isSpelt: true as const } : {}),
      values: distinct,
      perLine,
      ...(isTime ? { timesMs } : {}),
    };
    return [slot];
  });
  return {
    slots,
    cells: [...cells.keys()],
    patterns: (groups) =>
      Object.fromEntries([
        ...[...times].flatMap(([path, cell]) =>
          groups.has(cell.time) || groups.has(cell.rest) ? [[path, cell.pattern(groups)] as const] : [],
        ),
        ...[...cells].flatMap(([path, cell]) => {
          const pattern = cell.slots.some((slot) => groups.has(slot)) ? cell.when(groups) : null;
          return typeof pattern === 'string' ? [[path, pattern] as const] : [];
        }),
      ]),
  };
}

/** Hints at the subject: field names, and a constant word in one of them, such as `for=dither`. */
export function hintsOf(slots: readonly Slot[], cells: readonly string[]): string {
  const constants = slots.flatMap(({ type, values: [only, other] }) =>
    type === 'text' && other === undefined && only !== undefined ? [only] : [],
  );
  return [...slots.flatMap(({ path }) => path ?? []), ...cells, ...constants].join(' ');
}

/** The values of one field that are alike except for numbers and names: `300 s Ha NGC 281`. */
function compositeCell(lines: readonly FieldLine[], path: string, decimalComma: boolean): Kind | null {
  const messages = lines.map(({ fields, line, atMs }) => ({ text: fields.get(path)?.trim() ?? '', line, atMs }));
  // `600s` is a number with its unit.
  if (
    !messages.every(
      ({ text }) =>
        /\d/.test(text) && (/[\s/;,=]/.test(text) || /^[-+]?\d[\d.,]*(?:\p{L}{1,3}|[℃°％%″′])$/u.test(text)),
    )
  )
    return null;
  const [cell, second] = textKinds(messages, decimalComma);
  return cell !== undefined && second === undefined && cell.slots.length > 0 && cell.summary !== '…' ? cell : null;
}
