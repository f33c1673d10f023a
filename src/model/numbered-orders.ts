/** The orders in which files were written, by the numbers in their names. */
import { groupBy, itemAt } from './collections.js';
import type { HeaderFrame } from './frame.js';

/**
 * Orders in which a train's files may have been numbered, likeliest first: files of one name but for the numbers follow
 * each other; where these lie in a folder for each filter, or bear its name, the one number that counts all of a train
 * does, or of a target.
 *
 * @param frameOf the frame of an item
 * @returns for each kind of order its series, `null` for one without a number that counts
 */
export function numberedOrders<T>(
  items: readonly T[],
  frameOf: (item: T) => HeaderFrame,
): readonly (readonly (readonly T[] | null)[])[] {
  const alike = [...groupBy(items, (item) => frameOf(item).file.replace(/\d+/g, '#')).values()].map((series) =>
    [...series].sort((a, b) => frameOf(a).file.localeCompare(frameOf(b).file, 'en', { numeric: true })),
  );
  const inCount = (keyOf: (frame: HeaderFrame) => string): (readonly T[] | null)[] =>
    [...groupBy(items, (item) => keyOf(frameOf(item))).values()].map((series) => byCount(series, frameOf));
  return [alike, inCount(({ kind }) => kind), inCount(({ kind, target }) => JSON.stringify([kind, target]))];
}

/** Sorted by the first number in their names that is unique; `null` if there is none. */
function byCount<T>(items: readonly T[], frameOf: (item: T) => HeaderFrame): readonly T[] | null {
  const numbers = items.map((item) => {
    const { file } = frameOf(item);
    return {
      item,
      own:
        file
          .slice(file.lastIndexOf('/') + 1)
          .match(/\d+/g)
          ?.map(Number) ?? [],
    };
  });
  const most = Math.max(0, ...numbers.map(({ own }) => own.length));
  for (let k = 0; k < most; k++) {
    const counts = new Set(numbers.map(({ own }) => own[k]));
    if (!counts.has(undefined) && counts.size === items.length)
      return numbers.sort((a, b) => itemAt(a.own, k) - itemAt(b.own, k)).map(({ item }) => item);
  }
  return null;
}
