import { groupBy } from '../../../../model/index.js';
import type { Kind, Slot } from '../kinds/kind.js';
import type { Transition } from './transitions.js';

/** All lines that enter, or leave, one state of a device, treated as a kind. */
export interface Half {
  readonly device: string;
  readonly family: string;
  readonly state: string;
  readonly isEntered: boolean;
  readonly kind: Kind;
  /** The kinds whose lines these are. */
  readonly wholes: readonly Kind[];
}

/** The states of devices with all lines that leave and enter them: leaving comes first. */
export function halvesOf(transitions: readonly Transition[]): readonly Half[] {
  const side = (isEntered: boolean): Half[] => {
    const groups = groupBy(transitions, ({ kind, device, left, entered, rest }) =>
      (isEntered ? [device, entered, rest, formOf(kind)] : [device, left]).join('\0'),
    );
    return [...groups.values()].flatMap((own): Half[] => {
      const [first] = own;
      if (first === undefined) return [];
      const state = isEntered ? first.entered : first.left;
      const wholes = own.map(({ kind }) => kind);
      return [
        {
          device: first.device,
          family: first.family,
          state,
          isEntered,
          wholes,
          kind: halfKind(first, state, isEntered, wholes),
        },
      ];
    });
  };
  return [...side(false), ...side(true)];
}

function formOf({ slots }: Kind): string {
  return slots.map(({ type, after }) => `${type} ${after}`).join('\0');
}

function halfKind(first: Transition, state: string, isEntered: boolean, wholes: readonly Kind[]): Kind {
  const lead = first.device === '' ? '' : `${first.device}  `;
  const order = wholes
    .flatMap((whole) => whole.lines.map((line, nth) => ({ whole, nth, line })))
    .sort((a, b) => a.line - b.line);
  const names = first.device.split('#').length - 1;
  const slots = first.kind.slots.flatMap((slot, i): Slot[] =>
    isEntered ||
    (slot.path === null ? i < names : slot.type === 'text' && wholes.every((one) => sameSlot(one, slot, i)))
      ? [merged(slot, i, wholes, order)]
      : [],
  );
  return {
    ...first.kind,
    count: wholes.reduce((sum, { count }) => sum + count, 0),
    firstLine: Math.min(...wholes.map(({ firstLine }) => firstLine)),
    examples: wholes.flatMap(({ examples }) => examples.slice(0, 1)).slice(0, 3),
    wording: `${lead}${isEntered ? `· → ${state}${first.rest}` : `${state} → ·`}`,
    lead: lead.length,
    hints: isEntered ? first.kind.hints : '',
    slots,
    lines: order.map(({ line }) => line),
    atMs: order.map(({ whole, nth }) => whole.atMs[nth] ?? NaN),
  };
}

/** The corresponding slot of another kind: by name, else by order. */
function sameSlot({ slots }: Kind, { path }: Slot, i: number): Slot | undefined {
  return path === null ? slots[i] : slots.find((one) => one.path === path);
}

/** A slot that all of the kinds have, with the values of all of their lines. */
function merged(
  slot: Slot,
  i: number,
  wholes: readonly Kind[],
  order: readonly { readonly whole: Kind; readonly nth: number }[],
): Slot {
  const { timesMs: _, ...rest } = slot;
  return {
    ...rest,
    values: [...new Set(wholes.flatMap((whole) => sameSlot(whole, slot, i)?.values ?? []))].slice(0, 24),
    perLine: order.map(({ whole, nth }) => sameSlot(whole, slot, i)?.perLine[nth]),
  };
}
