import { beginOf, type EventName, otherSideOf } from '../../../../model/index.js';
import { byRule, named, type Audit, type DraftedEvent } from './drafted-night.js';

/** Done by the single mount and guider, or by each train separately. */
const PAIRED = /^(?:guiding|guiding-rest|star-gap|hold|slew|centre|flip|dither|settling|focus|filter)-(?:begin|end)$/;
const BY_TRAIN = /^(?:filter|focus)/;
/** What settling follows, whether or not a line reports its beginning. */
const SETTLES: ReadonlySet<EventName> = new Set(['dither-begin', 'dither-end', 'guiding-begin', 'guiding-rest-end']);
const MIN_EVENTS = 2;
const MIN_OTHERS = 3;
const NEARLY_ALL = 0.75;
/** Tolerance between the numbers of begins and ends, where both are logged. */
const BALANCED = 0.8;

/**
 * Ends without a begin, and begins of what is already in progress, where other rules report both sides equally often:
 * these are surplus.
 */
export const unpaired: Audit = ({ drafted }) => {
  const all = drafted.filter(({ event: { event } }) => PAIRED.test(event));
  const areNamed = all.every(({ event: { event, train } }) => !BY_TRAIN.test(event) || train !== undefined);
  const open = new Set<string>();
  let mustSettle = false;
  const odd = new Set<DraftedEvent>();
  for (const one of all) {
    const { event, train } = one.event;
    const begin = beginOf(event);
    const key = `${begin ?? event} ${BY_TRAIN.test(event) && areNamed ? (train ?? '') : ''}`;
    const isSettled = event === 'settling-end' && mustSettle;
    if (open.has(key) === (begin === undefined) && !isSettled) odd.add(one);
    if (event === 'settling-end' || SETTLES.has(event)) mustSettle = event !== 'settling-end';
    if (begin === undefined) open.add(key);
    else open.delete(key);
  }
  return byRule(all).flatMap(({ rule, event, own }) => {
    const count = own.filter((one) => odd.has(one)).length;
    if (own.length < MIN_EVENTS || count < NEARLY_ALL * own.length) return [];
    const others = named(drafted, otherSideOf(event) ?? event).length;
    const rest = named(drafted, event).length - own.length;
    if (others < MIN_OTHERS || rest < BALANCED * others || BALANCED * rest > others) return [];
    const why = beginOf(event) === undefined ? 'begin what is already in progress' : 'end what has not begun';
    return [{ rule, event, why: `${count} of ${own.length} ${why}` }];
  });
};
