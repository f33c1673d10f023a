import { endOf } from '../../../../model/index.js';
import type { DraftedEvent } from './drafted-night.js';

/** What two trains may do at once. */
const BY_TRAIN = /^(?:exposure|filter|focus)-/;

/**
 * Events without names of trains, as those of two: a beginning is of the one that is free, an end of the one that has
 * been busy longer. What contradicts others even so is not explained by a second train.
 *
 * @param drafted in chronological order
 */
export function ofTwoTrains(drafted: readonly DraftedEvent[]): readonly DraftedEvent[] {
  const busy = new Map<string, readonly string[]>();
  return drafted.map((one): DraftedEvent => {
    const { event } = one;
    if (event.train !== undefined || !BY_TRAIN.test(event.event)) return one;
    const [subject = ''] = event.event.split('-');
    const open = busy.get(subject) ?? [];
    const isBegin = endOf(event.event) !== undefined;
    const train = isBegin ? (['1', '2'].find((free) => !open.includes(free)) ?? '1') : (open[0] ?? '1');
    busy.set(subject, isBegin ? [...open.filter((name) => name !== train), train] : open.slice(1));
    return { ...one, event: { ...event, train } };
  });
}
