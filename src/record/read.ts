/** From a file's text to a trusted record. */
import { z } from 'zod';
import {
  EARLIEST_YEAR,
  formatPath,
  isObject,
  isPlausibleInstant,
  LATEST_YEAR,
  MAX_TEXT,
  MOST_EVENTS,
  MOST_FRAMES,
  MOST_TARGETS,
  MOST_TRAINS,
  VERDICT_KINDS,
  type JsonObject,
} from '../model/index.js';
import { migrate } from './migrate.js';
import {
  MAX_EXPOSURE_SECONDS,
  nightRecordSchema,
  type FrameRecord,
  type NightRecord,
  type SessionRecord,
} from './schema.js';

/** A record, or why the text holds none: another kind of JSON, a record of a newer program, or a damaged one. */
export type Reading =
  | { readonly ok: true; readonly record: NightRecord }
  | { readonly ok: false; readonly state: 'foreign' | 'newer' | 'damaged'; readonly why: string };

/**
 * Everything but the frames. They are the bulk of a record and are checked by hand-written code, in a tenth of the
 * time.
 */
const HEAD = nightRecordSchema.omit({ frames: true, parts: true });
const FRAME = nightRecordSchema.shape.frames.element.shape;
const CAUSES = z.array(FRAME.causes.element);
const CLEARED = FRAME.cleared.unwrap();
const STARS = FRAME.stars.unwrap().unwrap();

const INSTANT = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d+)?Z$/;
const VERDICTS: readonly unknown[] = VERDICT_KINDS;

/** Reads a record's text: untrusted, of any version. Never throws. */
export function readRecord(text: string): Reading {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    return {
      ok: false,
      state: 'damaged',
      why: `it is not JSON (${error instanceof Error ? error.message : String(error)})`,
    };
  }
  const migrated = migrate(parsed);
  if (!migrated.ok) return migrated;
  const { record } = migrated;
  const why = problemOf(record) ?? partsProblem(record);
  return why === null && isChecked(record)
    ? { ok: true, record }
    : { ok: false, state: 'damaged', why: why ?? 'it is incomplete' };
}

/** Narrows an object after the checks above; the check for frames keeps the compiler honest. */
function isChecked(record: JsonObject): record is JsonObject & NightRecord {
  return Array.isArray(record.frames);
}

function partsProblem({ parts }: JsonObject): string | null {
  if (parts === undefined) return null;
  if (!Array.isArray(parts) || parts.length === 0) return 'parts must be a list of sessions';
  for (const [index, part] of parts.entries()) {
    const why = isObject(part) ? problemOf(part) : 'it is not a record';
    if (why !== null) return `${formatPath(['parts', index])}: ${why}`;
  }
  return null;
}

/** What is wrong with a session's record, or `null`. Unknown fields are accepted. */
function problemOf({ frames, parts: _parts, ...head }: JsonObject): string | null {
  const result = HEAD.safeParse(head);
  const issue = result.error?.issues.find(isSerious);
  if (issue) return `${formatPath(issue.path)} ${issue.message}`;
  if (!isPlausibleInstant(Date.parse(String(head.night))))
    return `night must be a date of the years ${EARLIEST_YEAR} to ${LATEST_YEAR}`;
  // The parts are one long text, with its own limit where it is decompressed.
  const { stages: _stages, ...texts } = head;
  const odd = oddText(texts);
  if (odd !== null) return `${odd} must not be longer than ${MAX_TEXT} characters`;
  if (!Array.isArray(frames)) return 'frames must be a list';
  const crowd = crowdOf({ frames, ...head });
  if (crowd !== null) return crowd;
  for (let i = 0; i < frames.length; i++) {
    const why = frameProblem(frames[i]);
    if (why !== null) return `${formatPath(['frames', i])}: ${why}`;
  }
  return null;
}

/** Upper limits for a record; a night made of several sessions has the frames of all of them. */
const MOST: Readonly<Record<string, number>> = {
  trains: MOST_TRAINS,
  targets: MOST_TARGETS,
  frames: 4 * MOST_FRAMES,
  dithers: MOST_EVENTS,
  totals: MOST_EVENTS,
  findings: 1000,
};

function crowdOf(record: JsonObject): string | null {
  for (const [key, most] of Object.entries(MOST)) {
    const list = record[key];
    if (Array.isArray(list) && list.length > most) return `${key} must be no more than ${most}`;
  }
  return null;
}

/** A later program of the same version may add fields. */
function isSerious(issue: z.core.$ZodIssue): boolean {
  return issue.code !== 'unrecognized_keys';
}

/** What is wrong with a frame, or `null`; the same answer as the schema, except for unknown fields. */
export function frameProblem(value: unknown): string | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return 'it is not a frame';
  const frame = value as Partial<Record<keyof FrameRecord, unknown>>;
  if (typeof frame.train !== 'string') return 'train must be text';
  if (typeof frame.begin !== 'string' || !INSTANT.test(frame.begin) || !isPlausibleInstant(Date.parse(frame.begin)))
    return `begin must be an instant in UTC, of the years ${EARLIEST_YEAR} to ${LATEST_YEAR}`;
  if (typeof frame.seconds !== 'number' || !(frame.seconds >= 0 && frame.seconds <= MAX_EXPOSURE_SECONDS))
    return `seconds must be a number from 0 to ${MAX_EXPOSURE_SECONDS}`;
  if (!VERDICTS.includes(frame.verdict)) return 'verdict must be kept, doubtful or lost';
  if (frame.file !== null && typeof frame.file !== 'string') return 'file must be text or null';
  if (frame.target !== null && typeof frame.target !== 'string') return 'target must be text or null';
  if (frame.filter !== null && typeof frame.filter !== 'string') return 'filter must be text or null';
  if (frame.identity !== undefined && typeof frame.identity !== 'string') return 'identity must be text';
  // Field by field: with hundreds of thousands of frames, dynamic keys take half of this check's time.
  if (!isNumberOrNull(frame.moonSeparation)) return numberOrNull('moonSeparation');
  if (!isNumberOrNull(frame.moonAltitude)) return numberOrNull('moonAltitude');
  if (!isNumberOrNull(frame.altitude)) return numberOrNull('altitude');
  if (!isNumberOrNull(frame.airmass)) return numberOrNull('airmass');
  if (frame.effectiveFrom !== undefined && frame.effectiveFrom !== 'measured' && frame.effectiveFrom !== 'modelled')
    return 'effectiveFrom must be measured or modelled';
  if (!isNumberOrNone(frame.guidingRms)) return numberOrNull('guidingRms');
  if (!isNumberOrNone(frame.starSize)) return numberOrNull('starSize');
  if (!isNumberOrNone(frame.starFwhm)) return numberOrNull('starFwhm');
  if (!isNumberOrNone(frame.effectiveSeconds, 0)) return numberOrNull('effectiveSeconds');
  if (!isNumberOrNone(frame.moonBrightening, 0)) return numberOrNull('moonBrightening');
  const odd = tooLongOf(frame);
  if (odd !== null) return `${odd} must not be longer than ${MAX_TEXT} characters`;
  return causesProblem(frame.causes) ?? clearedProblem(frame.cleared) ?? starsProblem(frame.stars);
}

function numberOrNull(key: keyof FrameRecord): string {
  return `${key} must be a number or null`;
}

function isNumberOrNull(value: unknown): boolean {
  return value === null || typeof value === 'number';
}

/** @param from the minimum */
function isNumberOrNone(value: unknown, from = -Infinity): boolean {
  return value === undefined || value === null || (typeof value === 'number' && !(value < from));
}

function tooLongOf({
  train,
  target,
  filter,
  file,
  identity,
}: Partial<Record<keyof FrameRecord, unknown>>): string | null {
  if (isTooLong(train)) return 'train';
  if (isTooLong(target)) return 'target';
  if (isTooLong(filter)) return 'filter';
  if (isTooLong(file)) return 'file';
  return isTooLong(identity) ? 'identity' : null;
}

function isTooLong(value: unknown): boolean {
  return typeof value === 'string' && value.length > MAX_TEXT;
}

/** The field with an implausibly long text, anywhere in a record's head; `null` if all is well. */
function oddText(head: JsonObject): string | null {
  const odd = oddPath(head);
  if (odd === null) return null;
  const path = formatPath(odd.way.reverse());
  return odd.isKey ? (path === '' ? 'a key' : `a key of ${path}`) : path;
}

/** A path from the text outwards: usually there is none, and none is created. */
interface OddText {
  readonly way: PropertyKey[];
  readonly isKey: boolean;
}

function oddPath(value: unknown): OddText | null {
  if (isTooLong(value)) return { way: [], isKey: false };
  if (typeof value !== 'object' || value === null) return null;
  const isList = Array.isArray(value);
  for (const [key, inner] of Object.entries(value)) {
    if (key.length > MAX_TEXT) return { way: [], isKey: true };
    const odd = typeof inner === 'string' || typeof inner === 'object' ? oddPath(inner) : null;
    if (odd === null) continue;
    odd.way.push(isList ? Number(key) : key);
    return odd;
  }
  return null;
}

function clearedProblem(cleared: unknown): string | null {
  if (cleared === undefined || (Array.isArray(cleared) && cleared.length === 0)) return null;
  return problemIn('cleared', CLEARED.safeParse(cleared).error);
}

function starsProblem(stars: unknown): string | null {
  return stars === undefined || stars === null ? null : problemIn('stars', STARS.safeParse(stars).error);
}

function problemIn(field: string, error: z.ZodError | undefined): string | null {
  const issue = error?.issues.find(isSerious);
  return issue ? `${formatPath([field, ...issue.path])} ${issue.message}` : null;
}

function causesProblem(causes: unknown): string | null {
  if (!Array.isArray(causes)) return 'causes must be a list';
  if (causes.length === 0) return null;
  return problemIn('causes', CAUSES.safeParse(causes).error);
}

/** The sessions of a night: its parts, or itself. */
export function sessionsOf(record: NightRecord): readonly SessionRecord[] {
  if (record.parts !== undefined) return record.parts;
  const { parts: _none, ...session } = record;
  return [session];
}
