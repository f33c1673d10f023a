import { TABLE } from '../csv-tables.js';
import type { DraftRule } from './report.js';

const FILLED = 0.9;

/** Rules of one event together, events in order of first occurrence; patterns on more fields come first. */
export function inOrder(rules: readonly DraftRule[]): DraftRule[] {
  const firstOf = new Map<string, number>();
  const nameOf = ({ events }: DraftRule): string => events[0]?.event ?? '';
  for (const rule of rules) firstOf.set(nameOf(rule), Math.min(firstOf.get(nameOf(rule)) ?? Infinity, rule.firstLine));
  // All rules of a table may name it: that makes none narrower.
  const conditions = ({ when }: DraftRule): number =>
    typeof when === 'string'
      ? 0
      : // A filled cell is less informative than its text.
        Object.entries(when).reduce((sum, [path, said]) => sum + (path === TABLE ? 0 : said === '.' ? FILLED : 1), 0);
  const sorted = [...rules].sort(
    (a, b) =>
      conditions(b) - conditions(a) ||
      (firstOf.get(nameOf(a)) ?? 0) - (firstOf.get(nameOf(b)) ?? 0) ||
      nameOf(a).localeCompare(nameOf(b)) ||
      b.count - a.count,
  );
  return narrowFirst(sorted);
}

/** Of two patterns where one also matches lines of the other, the narrower comes first: the first match wins. */
function narrowFirst(rules: readonly DraftRule[]): DraftRule[] {
  const ordered: DraftRule[] = [];
  for (const rule of rules) {
    const before = ordered.findIndex((earlier) => covers(earlier, rule));
    if (before < 0) ordered.push(rule);
    else ordered.splice(before, 0, rule);
  }
  return ordered;
}

function covers({ when }: DraftRule, { examples }: DraftRule): boolean {
  if (typeof when !== 'string') return false;
  try {
    const pattern = new RegExp(when, 'u');
    return examples.some((example) => pattern.test(example));
  } catch {
    return false;
  }
}
