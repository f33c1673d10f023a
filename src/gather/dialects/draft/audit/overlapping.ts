import { secondsOf } from './exposures-told.js';
import { byRule, named, type Audit, type ToldEvent } from './told-night.js';

const MIN_BEGINS = 5;
const MOSTLY = 0.5;
/** Programs state lengths in round figures. */
const NEARLY = 0.9;

/** Exposures of one train that begin before the last one's stated seconds are over, and nothing has ended it. */
export const overlapping: Audit = ({ told }) => {
  const open = new Map<string, ToldEvent>();
  const early = new Set<ToldEvent>();
  for (const one of named(told, 'exposure-begin', 'exposure-end', 'exposure-abort')) {
    const { event, train, atMs } = one.event;
    // Without names of trains, two may expose side by side.
    if (train === undefined) continue;
    const before = open.get(train);
    if (event !== 'exposure-begin') open.delete(train);
    else open.set(train, one);
    if (before === undefined || event !== 'exposure-begin') continue;
    if (atMs - before.event.atMs < NEARLY * secondsOf(before) * 1000) early.add(one);
  }
  return byRule(named(told, 'exposure-begin')).flatMap(({ rule, event, own }) => {
    const count = own.filter((one) => early.has(one)).length;
    if (own.length < MIN_BEGINS || count < MOSTLY * own.length) return [];
    return [{ rule, event, why: `${count} of ${own.length} begin while the train's last exposure goes on` }];
  });
};
