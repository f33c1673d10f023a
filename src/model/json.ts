/** A JSON object whose fields are not known yet. */
export type JsonObject = Readonly<Record<string, unknown>>;

/** Whether a parsed text, or a part of one, is a JSON object: not a list and not `null`. */
export function isObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
