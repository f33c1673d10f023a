import { EXPOSURE_SECONDS, FOCUS_POSITION, MAX_NAME, MAX_TEXT, PIXELS, TEMPERATURE_C, type Bounds } from './bounds.js';
import { keysOf } from './table.js';

/** A text of at most this many characters, truncated if longer; a number in a range; or a boolean. */
type FieldRow =
  | { readonly type: 'text'; readonly longest: number }
  | { readonly type: 'number'; readonly unit: string; readonly bounds: Bounds }
  | { readonly type: 'boolean' };

const NAME = { type: 'text', longest: MAX_NAME } as const;
const TEXT = { type: 'text', longest: MAX_TEXT } as const;

/** Facts an event may have. A value outside its bounds is not a fact: the field is dropped and counted. */
export const EVENT_FIELDS = {
  filter: NAME,
  target: NAME,
  /** Requested exposure. */
  seconds: { type: 'number', unit: 's', bounds: EXPOSURE_SECONDS },
  /** File name or path as the log prints it. */
  file: TEXT,
  /** Dither distance, in pixels of the guide camera. */
  pixels: { type: 'number', unit: 'px', bounds: PIXELS },
  ok: { type: 'boolean' },
  why: TEXT,
  to: NAME,
  /** Star size before and after a focus run, in the log's own unit. */
  sizeBefore: { type: 'number', unit: 'px', bounds: PIXELS },
  sizeAfter: { type: 'number', unit: 'px', bounds: PIXELS },
  position: { type: 'number', unit: 'steps', bounds: FOCUS_POSITION },
  temperature: { type: 'number', unit: '°C', bounds: TEMPERATURE_C },
  setpoint: { type: 'number', unit: '°C', bounds: TEMPERATURE_C },
  text: TEXT,
} as const satisfies Readonly<Record<string, FieldRow>>;

/** The name of a field. */
export type FieldName = keyof typeof EVENT_FIELDS;
export const FIELD_NAMES = keysOf(EVENT_FIELDS);

/** The TypeScript type of a field's value. */
export type FieldValue<F extends FieldName> = {
  text: string;
  number: number;
  boolean: boolean;
}[(typeof EVENT_FIELDS)[F]['type']];

/** A field's row, with the optional columns to be asked for. */
export function fieldRow(name: FieldName): FieldRow {
  return EVENT_FIELDS[name];
}

interface SpanRow {
  readonly label: string;
  /** Fields of the event that begins it and of the one that ends it. */
  readonly begin: readonly FieldName[];
  readonly end: readonly FieldName[];
}

/** What begins and ends: each row is two events, NAME-begin and NAME-end. */
export const SPANS = {
  exposure: {
    label: 'exposure',
    begin: ['filter', 'seconds', 'target'],
    end: ['filter', 'seconds', 'target', 'file', 'ok', 'why'],
  },
  dither: { label: 'dither', begin: ['pixels', 'why'], end: ['pixels', 'ok', 'why'] },
  settling: { label: 'settling', begin: ['why'], end: ['ok', 'why'] },
  focus: {
    label: 'focus',
    begin: ['why', 'sizeBefore', 'position', 'temperature', 'filter'],
    end: ['ok', 'why', 'sizeBefore', 'sizeAfter', 'position', 'temperature', 'filter'],
  },
  filter: { label: 'filter change', begin: ['to', 'why'], end: ['to', 'ok', 'why'] },
  slew: { label: 'slew', begin: ['target', 'why'], end: ['target', 'ok', 'why'] },
  centre: { label: 'centring', begin: ['target', 'why'], end: ['target', 'ok', 'why'] },
  flip: { label: 'meridian flip', begin: ['why'], end: ['ok', 'why'] },
  guiding: { label: 'guiding', begin: ['why'], end: ['why'] },
  'guiding-rest': { label: 'guiding paused', begin: ['why'], end: ['why'] },
  'star-gap': { label: 'guide star lost', begin: ['why'], end: ['why'] },
  hold: { label: 'hold', begin: ['why'], end: ['why'] },
} as const satisfies Readonly<Record<string, SpanRow>>;

/** Events that neither begin nor end a span of their own. */
export const MOMENTS = {
  'exposure-abort': { label: 'exposure aborted', fields: ['filter', 'seconds', 'target', 'file', 'why'] },
  'frame-saved': { label: 'frame saved', fields: ['file', 'filter', 'seconds', 'target'] },
  'dither-ready': { label: 'ready for a dither', fields: ['why'] },
  cooler: { label: 'cooler', fields: ['setpoint', 'temperature'] },
  note: { label: 'note', fields: ['text'] },
} as const satisfies Readonly<Record<string, { readonly label: string; readonly fields: readonly FieldName[] }>>;

export type SpanName = keyof typeof SPANS;
export type MomentName = keyof typeof MOMENTS;
export const SPAN_NAMES = keysOf(SPANS);

/** An event that begins something. */
export type BeginEvent = `${SpanName}-begin`;
/** An event that ends something. */
export type EndEvent = `${SpanName}-end`;
/** Events of nightledger's own log, and what dialects turn other programs' lines into. */
export type EventName = BeginEvent | EndEvent | MomentName;

/** The fields that an event may carry. */
export type FieldOf<E extends EventName> = E extends MomentName
  ? (typeof MOMENTS)[E]['fields'][number]
  : E extends `${infer S extends SpanName}-begin`
    ? (typeof SPANS)[S]['begin'][number]
    : E extends `${infer S extends SpanName}-end`
      ? (typeof SPANS)[S]['end'][number]
      : never;

export const BEGIN_EVENTS: readonly BeginEvent[] = SPAN_NAMES.map(beginOfSpan);
/** Every event that ends something, `exposure-abort` aside. */
export const END_EVENTS: readonly [EndEvent, ...EndEvent[]] = [
  endOfSpan(SPAN_NAMES[0]),
  ...SPAN_NAMES.slice(1).map(endOfSpan),
];
export const EVENT_NAMES: readonly [EventName, ...EventName[]] = [...END_EVENTS, ...BEGIN_EVENTS, ...keysOf(MOMENTS)];

const EVENT_SET: ReadonlySet<string> = new Set(EVENT_NAMES);
const SPAN_OF_BEGIN: ReadonlyMap<string, SpanName> = new Map(SPAN_NAMES.map((span) => [beginOfSpan(span), span]));
const SPAN_OF_END: ReadonlyMap<string, SpanName> = new Map(SPAN_NAMES.map((span) => [endOfSpan(span), span]));

const FIELDS_OF: ReadonlyMap<EventName, ReadonlySet<FieldName>> = new Map<EventName, ReadonlySet<FieldName>>([
  ...SPAN_NAMES.map((span) => [beginOfSpan(span), new Set<FieldName>(SPANS[span].begin)] as const),
  ...SPAN_NAMES.map((span) => [endOfSpan(span), new Set<FieldName>(SPANS[span].end)] as const),
  ...keysOf(MOMENTS).map((moment) => [moment, new Set<FieldName>(MOMENTS[moment].fields)] as const),
]);

/** Names of event logs written before October 2026, which are still read. */
export const FORMER_EVENTS: ReadonlyMap<string, EventName> = new Map<string, EventName>([
  ['settle-begin', 'settling-begin'],
  ['settle-end', 'settling-end'],
  ['guiding-pause', 'guiding-rest-begin'],
  ['guiding-resume', 'guiding-rest-end'],
  ['star-lost', 'star-gap-begin'],
  ['star-found', 'star-gap-end'],
]);

/** Whether the name is an event of the vocabulary. */
export function isEventName(name: string): name is EventName {
  return EVENT_SET.has(name);
}

/** Whether the event may carry the field. */
export function hasField(event: EventName, field: FieldName): boolean {
  return FIELDS_OF.get(event)?.has(field) === true;
}

/** The event that begins a span. */
export function beginOfSpan<S extends SpanName>(span: S): `${S}-begin` {
  return `${span}-begin`;
}

/** The end of what an event begins, or the begin of what it ends; `undefined` for an event without a span. */
export function otherSideOf(event: EventName): BeginEvent | EndEvent | undefined {
  return endOf(event) ?? beginOf(event);
}

/** The event that ends a span. */
export function endOfSpan<S extends SpanName>(span: S): `${S}-end` {
  return `${span}-end`;
}

/** The span that an event begins, or `undefined`. */
export function spanBegunBy(event: EventName): SpanName | undefined {
  return SPAN_OF_BEGIN.get(event);
}

/** The span that an event ends, or `undefined`. An aborted exposure has ended. */
export function spanEndedBy(event: EventName): SpanName | undefined {
  return event === 'exposure-abort' ? 'exposure' : SPAN_OF_END.get(event);
}

/** The event that ends what this one begins, or `undefined`. */
export function endOf(event: EventName): EndEvent | undefined {
  const span = spanBegunBy(event);
  return span === undefined ? undefined : endOfSpan(span);
}

/** The event that begins what this one ends, or `undefined`. */
export function beginOf(event: EventName): BeginEvent | undefined {
  const span = spanEndedBy(event);
  return span === undefined ? undefined : beginOfSpan(span);
}

/** An event's words: `focus begins`. */
export function eventLabel(event: EventName): string {
  const begun = spanBegunBy(event);
  if (begun !== undefined) return `${SPANS[begun].label} begins`;
  if (event in MOMENTS) return MOMENTS[event as MomentName].label;
  const ended = spanEndedBy(event);
  return ended === undefined ? event : `${SPANS[ended].label} ends`;
}
