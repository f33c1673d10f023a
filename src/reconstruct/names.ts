/**
 * One name per filter and target, however the capture programs spell them.
 */
import { filterSpelt, fold, targetKey, type Target } from '../model/index.js';

/** Returns a function that gives the name to show for a filter; unknown names are kept as they are. */
export function filterNamer(aliases: Readonly<Record<string, string>>): (raw: string) => string {
  const own = new Map(Object.entries(aliases).map(([alias, name]) => [fold(alias), name]));
  return (raw) => own.get(fold(raw)) ?? filterSpelt(raw) ?? raw.trim();
}

/** Returns a function that gives the known target meant by a name, or `undefined`. */
export function targetFinder(targets: readonly Target[]): (raw: string) => Target | undefined {
  const byName = new Map(targets.flatMap((t) => [t.name, ...t.aliases].map((name) => [targetKey(name), t] as const)));
  return (raw) => byName.get(targetKey(raw));
}
