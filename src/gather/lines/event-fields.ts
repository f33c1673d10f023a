import { EVENT_NAMES, type EventFields, type EventName } from '../../model/index.js';

type FieldType = 'text' | 'number' | 'positive' | 'boolean';

/** The type of every field an event may carry. `positive` includes zero. */
export const FIELD_TYPES = {
  filter: 'text',
  target: 'text',
  seconds: 'positive',
  file: 'text',
  pixels: 'positive',
  ok: 'boolean',
  why: 'text',
  to: 'text',
  sizeBefore: 'positive',
  sizeAfter: 'positive',
  position: 'number',
  temperature: 'number',
  setpoint: 'number',
  text: 'text',
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

/** What a value of the field must be, in words. */
export function fieldExpectation(name: FieldName): string {
  const expectations: Record<FieldType, string> = {
    text: 'a text',
    number: 'a number',
    positive: 'a number of zero or more',
    boolean: 'true or false',
  };
  return expectations[FIELD_TYPES[name]];
}

/**
 * Sets a field when the value is of its type.
 *
 * @returns whether it was set
 */
export function setField(draft: FieldDraft, name: FieldName, value: unknown): boolean {
  const type: FieldType = FIELD_TYPES[name];
  const fits =
    type === 'text'
      ? typeof value === 'string'
      : type === 'boolean'
        ? typeof value === 'boolean'
        : typeof value === 'number' && Number.isFinite(value) && (type === 'number' || value >= 0);
  if (fits) (draft as Record<string, unknown>)[name] = value;
  return fits;
}
