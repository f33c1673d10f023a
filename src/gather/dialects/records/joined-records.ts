/** Maximum number of open records; a night has fewer. */
const KEPT = 20_000;

/**
 * Records that identify their subject by a number only: `job=17 state=done` after `job=17 task=focus`. Each gets, in
 * addition to its own fields, those of the record that introduced its number.
 */
export class JoinedRecords {
  private readonly first = new Map<string, ReadonlyMap<string, string>>();

  /** @param path the field with the number */
  constructor(private readonly path: string) {}

  /** The record with the fields of the one that introduced its number. */
  take(fields: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
    const key = fields.get(this.path);
    if (key === undefined) return fields;
    const first = this.first.get(key);
    if (first === undefined || isAlike(first, fields)) {
      if (this.first.size >= KEPT) this.first.clear();
      this.first.set(key, fields);
      return fields;
    }
    return new Map([...first, ...fields]);
  }
}

/** A record with all the fields of the previous one introduces the number again. */
function isAlike(first: ReadonlyMap<string, string>, fields: ReadonlyMap<string, string>): boolean {
  return [...first.keys()].every((path) => fields.has(path));
}
