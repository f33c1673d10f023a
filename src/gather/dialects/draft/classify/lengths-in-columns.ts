import { groupBy, partition } from '../../../../model/index.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { lengthMs } from '../lengths.js';
import { SLACK_MS } from './busier-side.js';

/** What the stated seconds of a kind are: elapsed or planned. */
export type Stated = 'past' | 'planned';

interface Span {
  readonly atMs: number;
  readonly lastsMs: number;
}

/** Lines of a table's column that decide what its lengths are on the others. */
const MIN_DECIDED = 12;
/** Fraction of these with a row of the same length so much earlier: that of the begin, which states it as well. */
const BEGUN = 0.1;

/**
 * The lengths of a column are elapsed on all rows, if they are so on those of many, and planned on none: each thing has
 * one row, written when it is over.
 */
export function lengthsInColumns(slots: ReadonlyMap<Kind, Slot>, stated: ReadonlyMap<Kind, Stated>): [Kind, Stated][] {
  const inTables = [...slots].filter(([{ timeColumn }]) => timeColumn !== undefined);
  const columns = groupBy(inTables, ([, { path, before }]) => path ?? before.join(' '));
  return [...columns.values()].flatMap((own): [Kind, Stated][] => {
    const [decided, open] = partition(own, ([kind]) => stated.has(kind));
    if (!decided.every(([kind]) => stated.get(kind) === 'past')) return [];
    const begun = new Set(
      open.flatMap((one) => spansIn(one).map(({ atMs, lastsMs }) => keyOf(atMs + lastsMs, lastsMs))),
    );
    const spans = decided.flatMap(spansIn);
    const isBegun = ({ atMs, lastsMs }: Span): boolean =>
      [-1, 0, 1].some((away) => begun.has(keyOf(atMs + away * SLACK_MS, lastsMs)));
    return spans.length >= MIN_DECIDED && spans.filter(isBegun).length < BEGUN * spans.length
      ? open.flatMap((one) => (spansIn(one).length > 0 ? [[one[0], 'past']] : []))
      : [];
  });
}

const keyOf = (atMs: number, lastsMs: number): string => `${Math.round(atMs / SLACK_MS)} ${Math.round(lastsMs / 1000)}`;

function spansIn([kind, slot]: readonly [Kind, Slot]): Span[] {
  return kind.atMs.flatMap((atMs, i) => {
    const lastsMs = lengthMs(slot, i);
    return Number.isNaN(atMs) || !(lastsMs > 0) ? [] : [{ atMs, lastsMs }];
  });
}
