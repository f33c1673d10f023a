import {
  clipped,
  EVENT_NAMES,
  EXPOSURE_SECONDS,
  FOCUS_POSITION,
  isWithin,
  MAX_NAME,
  MAX_TEXT,
  PIXELS,
  TEMPERATURE_C,
  type EventFields,
  type EventName,
  type Bounds,
} from '../../model/index.js';

/** A text of at most so many characters, longer ones being cut; a number in a range; or a truth. */
type FieldType = { readonly text: number } | Bounds | 'boolean';

const NAME = { text: MAX_NAME };
const TEXT = { text: MAX_TEXT };

/** The type of every field an event may carry. */
export const FIELD_TYPES = {
  filter: NAME,
  target: NAME,
  seconds: EXPOSURE_SECONDS,
  file: TEXT,
  pixels: PIXELS,
  ok: 'boolean',
  why: TEXT,
  to: NAME,
  sizeBefore: PIXELS,
  sizeAfter: PIXELS,
  position: FOCUS_POSITION,
  temperature: TEMPERATURE_C,
  setpoint: TEMPERATURE_C,
  text: TEXT,
} as const satisfies Record<keyof EventFields, FieldType>;

/** The name of a field. */
export type FieldName = keyof EventFields;

/** Every field's name. */
export const FIELD_NAMES = Object.keys(FIELD_TYPES) as readonly FieldName[];

/** Fields while they are being gathered. */
export type FieldDraft = { -readonly [K in FieldName]?: EventFields[K] };

const EVENT_SET: ReadonlySet<string> = new Set(EVENT_NAMES);

/** Whether the name is an event of the model. */
export function isEventName(name: string): name is EventName {
  return EVENT_SET.has(name);
}

/** Whether the name is a field of the model. */
export function isFieldName(name: string): name is FieldName {
  return Object.hasOwn(FIELD_TYPES, name);
}

/** Whether a field is a text, a number or a truth. */
export function fieldKind(name: FieldName): 'text' | 'number' | 'boolean' {
  const type: FieldType = FIELD_TYPES[name];
  if (type === 'boolean') return type;
  return 'text' in type ? 'text' : 'number';
}

/** What a value of the field must be, in words. */
export function fieldExpectation(name: FieldName): string {
  const type: FieldType = FIELD_TYPES[name];
  if (type === 'boolean') return 'true or false';
  return 'text' in type ? 'a text' : `a number from ${type.from} to ${type.to}`;
}

/**
 * Sets a field when the value is of its type; a text that is too long is cut.
 *
 * @returns whether it was set
 */
export function setField(draft: FieldDraft, name: FieldName, value: unknown): boolean {
  const fitting = fittingValue(FIELD_TYPES[name], value);
  if (fitting === undefined) return false;
  Object.assign(draft, { [name]: fitting });
  return true;
}

function fittingValue(type: FieldType, value: unknown): string | number | boolean | undefined {
  if (type === 'boolean') return typeof value === 'boolean' ? value : undefined;
  if ('text' in type) return typeof value === 'string' ? clipped(value, type.text) : undefined;
  return typeof value === 'number' && isWithin(value, type) ? value : undefined;
}
