/** When a target can be imaged, and its average nights month by month. */
import { groupBy, sum, type MonthHours, type NightHours, type Season } from '../model/index.js';

/**
 * The season of a target, from its hours on consecutive nights. The Moon is ignored: it completes a cycle every month.
 *
 * @param worthHours hours above the limit in darkness that make a night worthwhile
 */
export function seasonOf(nights: readonly NightHours[], worthHours: number): Season {
  const isWorth = (night: NightHours): boolean => night.up >= worthHours;
  const first = nights.findIndex(isWorth);
  const begin = nights[first];
  if (begin === undefined) return { state: 'never', bestHours: Math.max(0, ...nights.map((n) => n.up)) };
  const length = nights.slice(first).findIndex((night) => !isWorth(night));
  const until = length < 0 ? null : (nights[first + length - 1]?.date ?? null);
  return first === 0 ? { state: 'now', until } : { state: 'later', from: begin.date, until };
}

/** Mean hours a night, by calendar month. */
export function monthHours(nights: readonly NightHours[]): MonthHours[] {
  return [...groupBy(nights, (night) => night.date.slice(0, 7))].map(([month, own]) => {
    const mean = (value: (night: NightHours) => number): number => sum(own.map(value)) / own.length;
    return { month, up: mean((n) => n.up), moonless: mean((n) => n.moonless), farMoon: mean((n) => n.farMoon) };
  });
}
