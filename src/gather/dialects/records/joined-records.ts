/** Records that are kept at one time; a night has fewer. */
const KEPT = 20_000;

/**
 * Records that say what they are about by a number alone: `job=17 state=done` after `job=17 task=focus`. Each has,
 * beside its own fields, those of the record that brought its number up.
 */
export class JoinedRecords {
  private readonly first = new Map<string, ReadonlyMap<string, string>>();

  /** @param path the field with the number */
  constructor(private readonly path: string) {}

  /** The record with the fields that it has from the one that brought its number up. */
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

/** A record with all of the fields of the one before begins the number anew. */
function isAlike(first: ReadonlyMap<string, string>, fields: ReadonlyMap<string, string>): boolean {
  return [...first.keys()].every((path) => fields.has(path));
}
