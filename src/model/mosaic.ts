/** How evenly a mosaic's panels were imaged: a panel that lags is a noisier patch of the whole. */
import { duration, listed } from '../vocabulary/index.js';
import { groupBy, itemAt } from './collections.js';
import { sum } from './statistics.js';
import { panelSpelt, targetKey, wholeOfPanel } from './designation.js';

/** What was kept of a target through a filter. */
export interface PanelShare {
  readonly target: string;
  readonly filter: string;
  readonly keptMs: number;
}

/** Panels that lack less than this of the most exposed are even: the noise differs by a twentieth. */
const EVEN_SHARE = 0.1;

/**
 * A sentence for each mosaic of which two panels or more were imaged: `Mosaic of M 31, panels 1 and 2, kept: Ha 2.0 h
 * and 1.2 h (panel 2 lacks 48 min); OIII even, 1.0 h each or more.`
 */
export function mosaicBalance(shares: readonly PanelShare[]): string[] {
  // A target comes with each of its nights and filters.
  const panels = new Map([...new Set(shares.map(({ target }) => target))].map((name) => [name, panelOf(name)]));
  const parts = shares.flatMap((share) => {
    const panel = panels.get(share.target);
    return panel ? [{ ...share, ...panel }] : [];
  });
  return [...groupBy(parts, ({ whole }) => targetKey(whole)).values()].flatMap((own) => {
    const labels = [...new Set(own.map(({ label }) => label))].sort((a, b) =>
      a.localeCompare(b, 'en', { numeric: true }),
    );
    if (labels.length < 2) return [];
    const said = [...groupBy(own, ({ filter }) => filter)].map(([filter, ofFilter]) => {
      const kept = labels.map((label) => sum(ofFilter.filter((one) => one.label === label).map((one) => one.keptMs)));
      return `${filter === '' ? 'no filter' : filter} ${balanceOf(labels, kept)}`;
    });
    return [`Mosaic of ${itemAt(own, 0).whole}, panels ${listed(labels)}, kept: ${said.join('; ')}.`];
  });
}

function panelOf(name: string): { readonly whole: string; readonly label: string } | null {
  const whole = wholeOfPanel(name);
  const spelt = panelSpelt(name);
  return whole === null || spelt === null ? null : { whole, label: spelt.slice(spelt.lastIndexOf(' ') + 1) };
}

function balanceOf(labels: readonly string[], kept: readonly number[]): string {
  const most = Math.max(...kept);
  const lacking = labels.flatMap((label, i) => {
    const lacks = most - itemAt(kept, i);
    return lacks > EVEN_SHARE * most ? [`panel ${label} lacks ${duration(lacks)}`] : [];
  });
  if (lacking.length === 0) return most === 0 ? 'nothing yet' : `even, ${duration(Math.min(...kept))} each or more`;
  return `${listed(kept.map(duration))} (${listed(lacking)})`;
}
