/** Amounts of time as settings state them. */

/** A number with an optional unit; a plain number has the default unit. `null` when it is not one. */
export function amount(value: string, units: Readonly<Record<'s' | 'm', number>>): number | null {
  const match = /^(-?\d+(?:\.\d+)?)\s*(s|m|min)?$/iu.exec(value);
  if (!match) return null;
  const plain = units.s === 1 ? units.s : units.m;
  const unit = match[2] === undefined ? plain : match[2].toLowerCase() === 's' ? units.s : units.m;
  return Number(match[1]) * unit;
}
