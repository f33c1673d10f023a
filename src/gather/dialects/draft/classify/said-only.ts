import type { EventName } from '../../../../model/index.js';

/** Events that share words: a dither and its settling, a flip and its slew. */
const NEIGHBOURS: readonly RegExp[] = [
  /^(?:exposure|frame)-/,
  /^(?:dither|settling)-/,
  /^(?:guiding|star-gap|settling)-/,
  /^(?:slew|centre|flip)-/,
  /^(?:filter|focus)-/,
];
/** Words with this much evidence leave what they do not name to lines that do. */
const SURE = 4;

/**
 * Whether a kind may report an event, judging by its words: if they are certain of one thing, the timeline may assign
 * related events only.
 */
export function mayTell(event: EventName, own: ReadonlyMap<EventName, number>): boolean {
  const surest = Math.max(0, ...own.values());
  if (surest < SURE) return true;
  return [...own].some(
    ([said, value]) =>
      value > 0 && (said === event || NEIGHBOURS.some((family) => family.test(said) && family.test(event))),
  );
}
