import {
  clipped,
  EVENT_FIELDS,
  fieldRow,
  isKeyOf,
  isWithin,
  type EventFields,
  type FieldName,
} from '../../model/index.js';

/** Fields while they are being gathered. */
export type FieldDraft = { -readonly [K in FieldName]?: EventFields[K] };

/** Whether the name is a field of the vocabulary. */
export function isFieldName(name: string): name is FieldName {
  return isKeyOf(EVENT_FIELDS, name);
}

/** What a value of the field must be, in words. */
export function fieldExpectation(name: FieldName): string {
  const row = fieldRow(name);
  if (row.type === 'text') return 'a text';
  if (row.type === 'boolean') return 'true or false';
  return `a number from ${row.bounds.from} to ${row.bounds.to}`;
}

/**
 * Sets a field when the value is of its type; a text that is too long is cut.
 *
 * @returns whether it was set
 */
export function setField(draft: FieldDraft, name: FieldName, value: unknown): boolean {
  const fitting = fittingValue(name, value);
  if (fitting === undefined) return false;
  Object.assign(draft, { [name]: fitting });
  return true;
}

function fittingValue(name: FieldName, value: unknown): string | number | boolean | undefined {
  const row = fieldRow(name);
  if (row.type === 'boolean') return typeof value === 'boolean' ? value : undefined;
  if (row.type === 'text') return typeof value === 'string' ? clipped(value, row.longest) : undefined;
  return typeof value === 'number' && isWithin(value, row.bounds) ? value : undefined;
}
