import {
  clipped,
  EVENT_FIELDS,
  fieldRow,
  hasField,
  isKeyOf,
  isWithin,
  type FieldName,
  type LogEvent,
} from '../../model/index.js';

/** Whether the name is a field of the vocabulary. */
export function isFieldName(name: string): name is FieldName {
  return isKeyOf(EVENT_FIELDS, name);
}

/** The valid values of the field, in words. */
export function fieldExpectation(name: FieldName): string {
  const row = fieldRow(name);
  if (row.type === 'text') return 'a text';
  if (row.type === 'boolean') return 'true or false';
  return `a number from ${row.bounds.from} to ${row.bounds.to}`;
}

/**
 * Sets a field of an event when the value has the field's type; a text that is too long is truncated.
 *
 * @returns whether it was set: `foreign` when such an event has no such field, `unfit` when the value is none
 */
export function setField(event: LogEvent, name: FieldName, value: unknown): 'set' | 'foreign' | 'unfit' {
  if (!hasField(event.event, name)) return 'foreign';
  const fitting = fittingValue(name, value);
  if (fitting === undefined) return 'unfit';
  // The value is of the field's type, and the event has the field.
  (event as Partial<Record<FieldName, unknown>>)[name] = fitting;
  return 'set';
}

function fittingValue(name: FieldName, value: unknown): string | number | boolean | undefined {
  const row = fieldRow(name);
  if (row.type === 'boolean') return typeof value === 'boolean' ? value : undefined;
  if (row.type === 'text') return typeof value === 'string' ? clipped(value, row.longest) : undefined;
  return typeof value === 'number' && isWithin(value, row.bounds) ? value : undefined;
}
