/**
 * Which names mean the same target.
 */
import { groupBy, itemAt, panelSpelt, type BookTarget, type NightSummary } from '../model/index.js';

/** One target under all the names it has. */
export interface NamedTarget {
  /** The display name: the goals book's, else the one used last. */
  readonly name: string;
  readonly otherNames: readonly string[];
  readonly place: { readonly raDeg: number; readonly decDeg: number } | null;
}

/** Looks up targets by any of their names. */
export interface TargetNames {
  readonly targets: readonly NamedTarget[];
  /** The target of a name in a record. */
  find(name: string): NamedTarget;
}

interface Entry {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly raDeg?: number;
  readonly decDeg?: number;
}

/** Keys of names. Each is requested with every night that names it, always in the same spelling. */
class Keys {
  private readonly known = new Map<string, string>();

  of(name: string): string {
    let key = this.known.get(name);
    if (key === undefined) this.known.set(name, (key = spelling(name)));
    return key;
  }
}

/** Spelling differences that do not distinguish targets: case and blanks, and names of mosaic panels. */
function spelling(name: string): string {
  return (panelSpelt(name) ?? name).trim().toLowerCase().replace(/\s+/g, '');
}

/** Joins names by the aliases of records, goals and the goals book. A name without aliases is a separate target. */
export function targetNames(nights: readonly NightSummary[], book: readonly BookTarget[]): TargetNames {
  const imaged = nights.flatMap((night) => night.totals.map((total): Entry => ({ name: total.target, aliases: [] })));
  const recorded = nights.flatMap((night): Entry[] => [...night.targets, ...night.goals]);
  // The latest coordinates count; the book takes precedence.
  const entries: Entry[] = [...book, ...[...recorded].reverse(), ...imaged.reverse()];
  const keys = new Keys();
  const roots = joinNames(entries, keys);
  const rootOf = (name: string): string => roots.get(keys.of(name)) ?? keys.of(name);
  const groups = groupBy(entries, ({ name }) => rootOf(name));
  const targets = new Map([...groups].map(([root, members]) => [root, toTarget(members, keys)] as const));
  return {
    targets: [...targets.values()],
    find: (name) => targets.get(rootOf(name)) ?? { name, otherNames: [], place: null },
  };
}

/** For every name the key of its target (disjoint sets). */
function joinNames(entries: readonly Entry[], keys: Keys): Map<string, string> {
  const parent = new Map<string, string>();
  const root = (key: string): string => {
    const up = parent.get(key) ?? key;
    return up === key ? key : root(up);
  };
  for (const { name, aliases } of entries) {
    const own = keys.of(name);
    parent.set(own, root(own));
    for (const alias of aliases) parent.set(root(keys.of(alias)), root(own));
  }
  return new Map([...parent.keys()].map((key) => [key, root(key)] as const));
}

function toTarget(members: readonly Entry[], keys: Keys): NamedTarget {
  const { name } = itemAt(members, 0);
  const placed = members.find((m) => m.raDeg !== undefined && m.decDeg !== undefined);
  const others = new Map(
    members.flatMap((m) => [m.name, ...m.aliases]).map((other) => [keys.of(other), other] as const),
  );
  others.delete(keys.of(name));
  return {
    name,
    otherNames: [...others.values()],
    place:
      placed?.raDeg === undefined || placed.decDeg === undefined
        ? null
        : { raDeg: placed.raDeg, decDeg: placed.decDeg },
  };
}
