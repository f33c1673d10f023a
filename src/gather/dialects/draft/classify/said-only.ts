import type { EventName } from '../../../../model/index.js';

/** What is told in the words of one another: a dither of its settling, a flip of its slew. */
const NEIGHBOURS: readonly RegExp[] = [
  /^(?:exposure|frame)-/,
  /^(?:dither|settling)-/,
  /^(?:guiding|star-gap|settling)-/,
  /^(?:slew|centre|flip)-/,
  /^(?:filter|focus)-/,
];
/** Words this sure leave what they do not name to lines that name it. */
const SURE = 4;

/**
 * Whether a kind of lines may tell an event, by its own words: where these are sure of one thing, the night may make
 * of them what goes with it, and nothing else.
 */
export function mayTell(event: EventName, own: ReadonlyMap<EventName, number>): boolean {
  const surest = Math.max(0, ...own.values());
  if (surest < SURE) return true;
  return [...own].some(
    ([said, value]) =>
      value > 0 && (said === event || NEIGHBOURS.some((family) => family.test(said) && family.test(event))),
  );
}
