import { groupBy, type Warning } from '../model/index.js';

/** Number of warnings of one kind that are listed individually; the others are counted. */
const LISTED_SINGLY = 20;

/** The first twenty warnings of each kind, and how many more there are: 100,000 stray files make a page of 22 MB. */
export function fewWarnings(warnings: readonly Warning[]): Warning[] {
  return [...groupBy(warnings, (w) => w.code).values()].flatMap((same) => {
    const rest = same.slice(LISTED_SINGLY);
    const [first] = rest;
    if (!first || rest.length === 1) return same;
    const count = rest.reduce((sum, w) => sum + (w.count ?? 1), 0);
    const more: Warning = {
      code: first.code,
      message: `${count} more like these (${first.code}), the first of them ${first.source?.file ?? 'without a file'}`,
      source: first.source,
      count,
    };
    return [...same.slice(0, LISTED_SINGLY), more];
  });
}
