/**
 * A place in a file's data, as messages name it. Items of lists are counted from 1, as people count.
 *
 * @param path keys of maps and indexes of lists (from 0), as a validation reports them
 * @returns `trains#1.role` for `['trains', 0, 'role']`
 */
export function formatPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}#${key + 1}` : text ? `${text}.${String(key)}` : String(key)),
    '',
  );
}
