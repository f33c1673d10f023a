/**
 * A location in a file's data, for messages. Items of lists are counted from 1, as people count.
 *
 * @param path keys of maps and indexes of lists (from 0), as reported by validation
 * @returns `trains#1.role` for `['trains', 0, 'role']`
 */
export function formatPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}#${key + 1}` : text ? `${text}.${String(key)}` : String(key)),
    '',
  );
}

/** A frame's file name without folders, compression ending or case: what log and disk can agree on. */
export function frameNameKey(path: string): string {
  const base = path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1).toLowerCase();
  return base.endsWith('.gz') || base.endsWith('.fz') ? base.slice(0, -3) : base;
}
