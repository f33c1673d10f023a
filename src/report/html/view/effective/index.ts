import { weighedTotals } from '../../../../model/index.js';
import type { ViewContext } from '../context.js';
import type { Table } from '../table.js';

import { FORMULAS, LIMITS } from './about.js';
import { basisOf } from './basis.js';
import { marginalTable, ordersTable, subsTable, totalsTable } from './tables.js';

export interface EffectiveView {
  /** The basis of the night's effective integration, in sentences. */
  readonly basis: readonly string[];
  readonly totals: Table | null;
  readonly orders: Table | null;
  readonly marginal: Table | null;
  readonly subs: Table | null;
  readonly limits: readonly string[];
  readonly formulas: readonly { readonly name: string; readonly text: string }[];
  /** Why there is nothing to show; empty when there is. */
  readonly missing: string;
}

/** The value of the kept frames, the cost of moonlight, and whether the subs had a good length. */
export function effectiveView(context: ViewContext): EffectiveView {
  const { night } = context;
  const totals = weighedTotals(night);
  const missing =
    totals.length > 0
      ? ''
      : night.gathered.site === null
        ? 'The site is not known: what the frames were worth cannot be computed.'
        : 'No kept frame of a target with known coordinates.';
  return {
    missing,
    basis: basisOf(night),
    totals: totals.length === 0 ? null : totalsTable(totals, context),
    orders: ordersTable(night.worth?.orders ?? [], context),
    marginal: marginalTable(totals, context),
    subs: subsTable(totals, context),
    limits: LIMITS,
    formulas: FORMULAS,
  };
}
