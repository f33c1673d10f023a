/**
 * One name per filter and target, however the capture programs spell them.
 */
import { filterSpelt, fold, panelSpelt, targetKey, wholeDesignation, type Target } from '../model/index.js';

/** A memoised function of a name: thousands of frames have few names. */
function oncePerName<V>(make: (raw: string) => V): (raw: string) => V {
  const known = new Map<string, { readonly value: V }>();
  return (raw) => {
    const found = known.get(raw) ?? { value: make(raw) };
    known.set(raw, found);
    return found.value;
  };
}

/** Returns a function that gives the name to show for a filter; unknown names are kept as they are. */
export function filterNamer(aliases: Readonly<Record<string, string>>): (raw: string) => string {
  const own = new Map(Object.entries(aliases).map(([alias, name]) => [fold(alias), name]));
  return oncePerName((raw) => own.get(fold(raw)) ?? filterSpelt(raw) ?? raw.trim());
}

/** Displayed names, and the number of distinct ones beyond the limit. */
export interface FewNames {
  readonly nameOf: (raw: string) => string;
  readonly leftOver: () => number;
}

/**
 * Keeps the first names and gives all further ones a common name: tables grow with targets times filters, and a file
 * name read as a target differs in every frame.
 */
export function fewNames(nameOf: (raw: string) => string, most: number, further: string): FewNames {
  const shown = new Set<string>();
  const left = new Set<string>();
  return {
    nameOf: (raw) => {
      const name = nameOf(raw);
      if (shown.has(name) || shown.size < most) {
        shown.add(name);
        return name;
      }
      left.add(name);
      return further;
    },
    leftOver: () => left.size,
  };
}

/** Returns a function that gives the known target meant by a name, or `undefined`. */
export function targetFinder(targets: readonly Target[]): (raw: string) => Target | undefined {
  const byName = new Map(targets.flatMap((t) => [t.name, ...t.aliases].map((name) => [targetKey(name), t] as const)));
  return oncePerName((raw) => byName.get(targetKey(raw)));
}

/**
 * Returns a function that gives the name to show for a target: the known one's, else one spelling for all, the
 * catalogue's where the name is a designation.
 */
export function targetNamer(targets: readonly Target[]): (raw: string) => string {
  const find = targetFinder(targets);
  const unknown = new Map<string, string>();
  return oncePerName((raw) => {
    const known = find(raw)?.name;
    if (known !== undefined) return known;
    const key = targetKey(raw);
    const name = unknown.get(key) ?? wholeDesignation(raw) ?? panelSpelt(raw) ?? raw.trim();
    unknown.set(key, name);
    return name;
  });
}
