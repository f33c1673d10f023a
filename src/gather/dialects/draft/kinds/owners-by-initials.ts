import { groupBy } from '../../../../model/index.js';

/** A title that begins with the first letters of another: `h.filter` of `heron`. */
const SHORTENED = /^(\p{L}{1,3})[\s._-]+(\S.*)$/u;

/**
 * The devices that columns are about, where at least two devices have the same column under the first letters of their
 * names: `heron`, `h.filter`, `wren`, `w.filter`. The devices themselves are among them.
 *
 * @param devices the columns with the states of devices
 * @param columns all columns of the table
 */
export function ownersByInitials(devices: readonly string[], columns: readonly string[]): ReadonlyMap<string, string> {
  const short = columns.flatMap((column) => {
    const [, letters = '', title = ''] = SHORTENED.exec(column) ?? [];
    const owners = devices.filter(
      (device) => letters !== '' && !SHORTENED.test(device) && device.toLowerCase().startsWith(letters.toLowerCase()),
    );
    return owners.length === 1 ? owners.map((owner) => ({ column, title, owner })) : [];
  });
  const shared = [...groupBy(short, ({ title }) => title.toLowerCase()).values()].filter(
    (own) => new Set(own.map(({ owner }) => owner)).size > 1,
  );
  return new Map(shared.flat().flatMap(({ column, owner }) => [[column, owner] as const, [owner, owner] as const]));
}
