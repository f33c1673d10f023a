import { secondsOf } from './drafted-exposures.js';
import { byRule, named, type Audit, type DraftedEvent } from './drafted-night.js';

const MIN_BEGINS = 5;
const MOSTLY = 0.5;
/** Programs state lengths in rounded figures. */
const NEARLY = 0.9;

/** Exposures of one train that begin before the previous one's stated length has passed, without an end in between. */
export const overlapping: Audit = ({ drafted }) => {
  const open = new Map<string, DraftedEvent>();
  const early = new Set<DraftedEvent>();
  for (const one of named(drafted, 'exposure-begin', 'exposure-end', 'exposure-abort')) {
    const { event, train, atMs } = one.event;
    // Without train names, two trains may expose in parallel.
    if (train === undefined) continue;
    const before = open.get(train);
    if (event !== 'exposure-begin') open.delete(train);
    else open.set(train, one);
    if (before === undefined || event !== 'exposure-begin') continue;
    if (atMs - before.event.atMs < NEARLY * secondsOf(before) * 1000) early.add(one);
  }
  return byRule(named(drafted, 'exposure-begin')).flatMap(({ rule, event, own }) => {
    const count = own.filter((one) => early.has(one)).length;
    if (own.length < MIN_BEGINS || count < MOSTLY * own.length) return [];
    return [{ rule, event, why: `${count} of ${own.length} begin during the train's previous exposure` }];
  });
};
