import { endOf, type EventName } from '../../../model/index.js';
import { tookUnit } from './group-names.js';
import type { Kind, Slot } from './kinds/kind.js';
import { lengthStated } from './kinds/length-stated.js';
import type { Part, Ranged } from './kinds/parts.js';
import { isFrameFile, numberIn } from './kinds/values.js';

const MINUTE_S = 60;

/** The length that a row states next to its begin, if it was written or saved later than its end. */
export function lengthOfRow({ kind, isEnd, tookMs, length }: Ranged): Slot | undefined {
  return isEnd ? length : lengthStated(kind.slots, tookMs);
}

/** The length of exposures, where some of their rows leave out when they ended. */
export function leftOut({ exposure, count, slots }: Kind, range: Ranged | undefined): Slot | undefined {
  if (exposure === undefined || exposure.isCut || range?.isEnd !== true) return undefined;
  const isLeftOut = (i: number): boolean => !/\d/.test(range.slot.perLine[i] ?? '');
  const file = slots.find(({ type }) => type === 'file');
  // A row without a file may be an aborted exposure whose end is elsewhere.
  const rows = Array.from({ length: Math.min(count, range.slot.perLine.length) }, (_, i) => i).filter(isLeftOut);
  const isFilled = rows.length === 0 || rows.some((i) => file !== undefined && !isFrameFile(file.perLine[i] ?? ''));
  return isFilled || exposure.length?.path === null ? undefined : (exposure.length ?? undefined);
}

/** The length of what began at the only time that a line states, if nothing reports its end. */
export function lengthOfPart(
  kind: Kind,
  parts: readonly { readonly part: Part; readonly event: EventName }[],
  logged: ReadonlySet<EventName>,
): Slot | undefined {
  const [own, ...others] = parts.filter(({ event }) => endOf(event) !== undefined);
  const end = own === undefined ? undefined : endOf(own.event);
  if (own === undefined || others.length > 0 || end === undefined || logged.has(end)) return undefined;
  return lengthStated(
    kind.slots,
    kind.atMs.map((atMs, i) => atMs - (own.part.kind.atMs[i] ?? NaN)),
  );
}

/** Whether what lasts so long begins and ends at the same stamp if stamps are of whole minutes. */
export function isBelowMinute(slot: Slot): boolean {
  return slot.values.every((value) => numberIn(value) * (tookUnit(slot) ?? 1) < MINUTE_S);
}
